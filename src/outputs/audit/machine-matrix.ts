import { inWords } from '../../wording/state-text.ts'
import { type Dealt, type EnergyLine, energyLines } from './energy-lines.ts'
import type { GapKind, GapLine } from './gap-lines.ts'
import type { AuditedDocument } from './library-documents.ts'
import { placedSteps } from './places.ts'

/** One machine with every procedure on it, and how each deals with each of its energies. */
export interface MachineMatrix {
  readonly machine: string
  readonly documents: readonly AuditedDocument[]
  readonly rows: readonly EnergyRow[]
}

export interface EnergyRow {
  readonly id: string
  readonly energy: string
  /** As each procedure's machine file gives it; more than one where they differ. */
  readonly magnitudes: readonly string[]
  /** One a document, in their order; null where its machine file does not know this energy. */
  readonly cells: readonly (EnergyCell | null)[]
}

export interface EnergyCell {
  readonly dealt: Dealt
  readonly line: EnergyLine
  /** Isolation points that are locked for it: `battery isolator, left side of the front bumper`. */
  readonly points: readonly string[]
}

/** For a cell of the matrix. */
export const DEALT_WORDS: Readonly<Record<Dealt, string>> = {
  sight: 'signed',
  reading: 'by reading',
  test: 'by test',
  word: 'made safe, no proof',
  named: 'named only',
  dismissed: 'left out',
  silent: 'NOT DEALT WITH',
}

/** A gap that only shows when procedures are laid side by side. */
export interface Conflict extends GapLine {
  readonly document: AuditedDocument
}

/** Machines in the order of their names, each with the energies of its file and those that some procedure alone names. */
export function machineMatrices(documents: readonly AuditedDocument[]): readonly MachineMatrix[] {
  const named = documents.filter(({ stepFile }) => stepFile.machine !== null)
  const machines = [...new Set(named.map(({ machineId }) => machineId))].sort()
  return machines.map((id) => {
    const own = named.filter(({ machineId }) => machineId === id)
    const lines = own.map(({ stepFile }) => energyLines(stepFile))
    const energies = [...new Set(lines.flat().map((line) => line.id))]
    return {
      machine: own[0]?.machine ?? id,
      documents: own,
      rows: energies.map((energy) => {
        const cells = own.map((document, index): EnergyCell | null => {
          const line = lines[index]?.find((one) => one.id === energy)
          return line === undefined ? null : { dealt: line.dealt, line, points: pointsFor(document, line) }
        })
        const magnitudes = cells.flatMap((cell) =>
          cell === null || cell.line.magnitude === '' ? [] : cell.line.magnitude,
        )
        return { id: energy, energy: inWords(energy), magnitudes: [...new Set(magnitudes)], cells }
      }),
    }
  })
}

/**
 * What is locked for an energy: the points that the machine file gives it, as far as a step locks them; else what is locked by
 * the step that makes it safe or the one just before.
 */
function pointsFor({ stepFile }: AuditedDocument, line: EnergyLine): readonly string[] {
  const steps = placedSteps(stepFile)
  const locked = new Set(steps.flatMap(({ step }) => step.locks.map(({ id }) => id)))
  const points = stepFile.machine?.isolationPoints ?? []
  const ofEnergy = points.filter((point) => point.energy === line.id && locked.has(point.id))
  if (ofEnergy.length > 0)
    return ofEnergy.map(({ what, where }) => [what, where ?? ''].filter((part) => part !== '').join(', '))
  const making = steps.flatMap(({ step }, index) =>
    step.sets.some(({ state }) => line.states.includes(state)) ? [step, steps[index - 1]?.step] : [],
  )
  const beside = making.flatMap((step) => step?.locks ?? []).map(({ id }) => id)
  return [...new Set(beside)]
    .filter((id) => !points.some((point) => point.id === id && point.energy !== line.id))
    .map(inWords)
}

const proves = (cell: EnergyCell | null): boolean => cell !== null && ['sight', 'reading', 'test'].includes(cell.dealt)
const isolates = (cell: EnergyCell | null): boolean => proves(cell) || cell?.dealt === 'word'

/** Where procedures on one machine do not agree about an energy. */
export function conflictsOf(matrix: MachineMatrix): readonly Conflict[] {
  return matrix.rows.flatMap((row) => [
    ...leftUndone(matrix, row),
    ...differences(matrix, row, 'is given as', (cell) => (cell.line.magnitude === '' ? null : cell.line.magnitude)),
    ...differences(matrix, row, 'is isolated at', (cell) =>
      cell.points.length === 0 ? null : [...cell.points].sort().join(' and '),
    ),
  ])
}

/** One procedure isolates or proves it, another does less. */
function leftUndone(matrix: MachineMatrix, row: EnergyRow): readonly Conflict[] {
  const best = row.cells.findIndex(proves)
  const first = best === -1 ? row.cells.findIndex(isolates) : best
  const model = matrix.documents[first]
  const cell = row.cells[first]
  if (model === undefined || cell === undefined || cell === null) return []
  const there = `${model.name} ${proves(cell) ? 'proves it safe' : 'makes it safe'} at ${placesOf(cell)}`
  return row.cells.flatMap((other, index): readonly Conflict[] => {
    const document = matrix.documents[index]
    if (document === undefined || index === first) return []
    const [kind, says] = lessThan(other, cell)
    if (kind === null) return []
    return [
      {
        document,
        kind,
        steps: '',
        who: '',
        where: matrix.machine,
        energy: row.id,
        says: `${capital(row.energy)}: ${there}; ${says}`,
      },
    ]
  })
}

function lessThan(cell: EnergyCell | null, model: EnergyCell): readonly [GapKind | null, string] {
  if (cell === null && !model.line.ofMachine)
    return ['undeclared', 'no machine file names it, so nobody asked about it here.']
  if (cell === null)
    return ['disagree', 'the machine file that this one was built from does not know it. Build it again.']
  switch (cell.dealt) {
    case 'silent':
      return ['disagree', 'this one neither isolates it nor says why not.']
    case 'named':
      return ['disagree', 'this one names a state for it, makes it safe nowhere and proves nothing.']
    case 'dismissed':
      return ['left-out', `this one leaves it out: ${cell.line.dismissed}`]
    case 'word':
      return proves(model)
        ? ['disagree', `this one makes it safe at ${placesOf(cell)}, and nothing proves it.`]
        : [null, '']
    default:
      return [null, '']
  }
}

/** The same energy with another figure or another isolation point: told once, with the last procedure that says otherwise. */
function differences(
  matrix: MachineMatrix,
  row: EnergyRow,
  verb: string,
  saidOf: (cell: EnergyCell) => string | null,
): readonly Conflict[] {
  const told = row.cells.flatMap((cell, index) => {
    const document = matrix.documents[index]
    const value = cell === null ? null : saidOf(cell)
    return document === undefined || value === null ? [] : [{ document, value }]
  })
  const values = [...new Set(told.map(({ value }) => value))]
  const other = told.findLast(({ value }) => value !== values[0])
  if (values.length < 2 || other === undefined) return []
  const sides = values.map((value) => {
    const names = told.filter((one) => one.value === value).map(({ document }) => document.name)
    return `${value} (${names.join(', ')})`
  })
  return [
    {
      document: other.document,
      kind: 'disagree',
      steps: '',
      who: '',
      where: matrix.machine,
      says: `${capital(row.energy)} ${verb} ${sides.join(', and ')}.`,
    },
  ]
}

export function placesOf({ line }: EnergyCell): string {
  const places = line.followed.flatMap(({ proved, madeSafe }) => (proved === '' ? madeSafe : proved))
  return [...new Set(places)].filter((place) => place !== '').join(', ')
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)
