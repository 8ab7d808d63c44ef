import { limitOfPrinted } from '../../quantities/judge-reading.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { limitTextIn } from '../../quantities/print-limit.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { ReadingSheet } from '../../wording/step-file-parts.ts'

export interface BlankUnit {
  /** What a figure is written down in. */
  readonly unit: string
  /** The limit in that unit, rounded to the safe side, to be printed where the limit does not have it; null where the leading unit is asked for. */
  readonly limit: string | null
}

const systems = ['metric', 'inch'] as const

/**
 * Written down in the unit that leads in the printed limit; where the named instrument reads in the other system alone, in the
 * unit of the instrument, with the limit in it. The same for every print of a document, as copies are read back by it.
 */
export function blankUnit({ resources }: Pick<StepFile, 'resources'>, reading: ReadingSheet): BlankUnit {
  const { limit } = reading
  const leading = { unit: limit?.inUnits[0]?.unit ?? limit?.unit ?? reading.unit ?? '', limit: null }
  const instrument = resources.tools.find(({ id }) => id === reading.instrument)
  if (limit === null || instrument === undefined) return leading
  const fact = (name: string) => instrument.facts.find((one) => one.name === name)?.text
  const scale = parseLimit(fact('resolution') ?? fact('range') ?? '')
  if (!scale.ok) return leading
  const [asked, read] = [unitBySymbol(leading.unit), unitBySymbol(scale.value.unit)]
  if (asked === null || read === null || asked.kind !== read.kind) return leading
  if (!systems.every((system) => asked.system === system || read.system === system)) return leading
  const exact = limitOfPrinted(limit)
  const text = exact === null ? null : limitTextIn(exact, read)
  // Nothing inward is left in its unit: the figure is converted by whoever judges it.
  return text === null ? leading : { unit: read.symbol, limit: text }
}
