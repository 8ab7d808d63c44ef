import type { Procedure } from '../model/procedure.ts'
import { quantitiesIn } from '../quantities/find-quantities-in-text.ts'
import type { Limit } from '../quantities/quantity-types.ts'
import { unitBySpelling } from '../quantities/units.ts'
import type { Prose } from '../syntax/prose.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'
import { plainWords } from './every-text.ts'

/** Two cells of a row that give one value in two units. */
export interface PairOfCells {
  /** `2 to 4 mm (0.08 to 0.16 in)`, put together of cells and headings. */
  readonly typed: string
  readonly first: Limit
  readonly second: Limit
  readonly at: Place
}

/** Where two columns beside each other have one name and two units (`gap, mm` and `gap, in`), each row gives a pair. */
export function everyPairOfCells(procedure: Procedure, written: WrittenProcedure): readonly PairOfCells[] {
  const opening = written.title?.at ?? procedure.document.at
  return [
    ...procedure.purpose.flatMap((prose) => pairsIn(prose, opening)),
    ...procedure.phases.flatMap(({ prose, at }) => prose.flatMap((piece) => pairsIn(piece, at))),
    ...everyWrittenStep(procedure).flatMap(({ step }) => step.details.flatMap((piece) => pairsIn(piece, step.at))),
  ]
}

function pairsIn(prose: Prose, at: Place): readonly PairOfCells[] {
  if (prose.kind === 'quote') return prose.children.flatMap((child) => pairsIn(child, at))
  if (prose.kind === 'list') return prose.items.flat().flatMap((item) => pairsIn(item, at))
  if (prose.kind !== 'table') return []
  const columns = prose.head.map((cell) => columnOf(plainWords(cell)))
  const rows = prose.rows.map((row) => row.map(plainWords))
  return columns.flatMap((column, index) => {
    const next = columns[index + 1]
    if (!column || !next || column.name !== next.name || column.unit === next.unit) return []
    return rows.flatMap((row): readonly PairOfCells[] => {
      const first = limitIn(row[index], column.unit)
      const second = limitIn(row[index + 1], next.unit)
      if (!first || !second || first.kind !== second.kind) return []
      return [{ typed: `${first.typed} (${second.typed})`, first, second, at }]
    })
  })
}

/** `gap, mm`, `gap (mm)`, `mm`: the name and the unit of a column whose cells are numbers. */
function columnOf(heading: string): { readonly name: string; readonly unit: string } | null {
  const parts = /^(?:([^,()[\]]*)[,([])?\s*([^,()[\]]+?)\s*[)\]]?$/.exec(heading.trim())
  const unit = parts?.[2] ?? ''
  return unitBySpelling(unit)?.symbol ? { name: (parts?.[1] ?? '').trim().toLowerCase(), unit } : null
}

function limitIn(cell: string | undefined, unit: string): Limit | null {
  const text = `${cell?.trim() ?? ''} ${unit}`
  const [found, another] = quantitiesIn(text).quantities
  return found && !another && found.from === 0 && found.to === text.length ? found.limit : null
}
