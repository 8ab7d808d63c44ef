import type { StepFile } from '../../step-file/step-file.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { onlyInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type ReadingSheet, type StepSheet, type TorqueSheet } from '../../wording/step-file-parts.ts'
import { workingsOfTorque } from '../../wording/working-text.ts'
import { blankUnit } from './blank-unit.ts'
import { fieldName } from './field-name.ts'
import type { ArithmeticPiece, ReadingBlock, TorqueBlock } from './sheet-steps.ts'

/** Lines for what is found on the day, where nobody said how many at most. */
const LINES_FOUND = 6

/** What is found on the day, and the numbers of the lines to write it on. */
export interface FoundLines {
  readonly what: string
  readonly lines: readonly string[]
  readonly isOpen: boolean
}

/** `repeat: { found: cracked weld, at-most: 8 }`: a line for each. Null where nothing is repeated so. */
export function foundAt({ entries }: Pick<StepSheet, 'entries'>): FoundLines | null {
  const data = entries.find(({ key }) => key === 'repeat')?.data
  if (typeof data !== 'object' || Array.isArray(data)) return null
  const { found, 'at-most': most } = data as { readonly [key: string]: unknown }
  if (typeof found !== 'string') return null
  const known = typeof most === 'string' && /^[1-9]\d?$/.test(most) ? Number(most) : null
  const lines = Array.from({ length: known ?? LINES_FOUND }, (_, line) => `${line + 1}`)
  return { what: found, lines, isOpen: known === null }
}

export function readingBlock(
  stepFile: StepFile,
  step: StepSheet,
  reading: ReadingSheet,
  found: FoundLines | null = null,
): ReadingBlock {
  const limit = reading.limit
  const blank = blankUnit(stepFile, reading)
  const named = resourceInWords(stepFile, reading.instrument)
  return {
    fields: placesOf(reading, found).map((place) => fieldName('reading', step.id, reading.id, place)),
    name: inWords(reading.name),
    kind: reading.kind,
    asks: reading.asks,
    instance: reading.instance === null ? null : inWords(reading.instance),
    limit: limit?.text ?? null,
    unit: blank.unit,
    judged: limit !== null && (limit.lower !== null || limit.upper !== null),
    instrument: named,
    notes: [
      ...(blank.limit === null || limit?.inUnits.some(({ unit }) => unit === blank.unit)
        ? []
        : [{ label: 'as the instrument reads', text: blank.limit }]),
      ...(reading.given === null ? [] : [{ label: 'given', text: reading.given }]),
      ...reading.facts.map(({ name, text }) => ({
        label: inWords(name),
        text: name === 'limit' ? signsOfPrint(text) : text,
      })),
      ...(found?.isOpen ? [{ label: 'more than these', text: 'go on with a new sheet' }] : []),
    ],
    positions: linesOf(reading, found),
    answers: reading.kind === 'check' ? answersOf(reading) : [],
    arithmetic: reading.expression === null ? [] : arithmetic(stepFile, reading.expression),
    only: reading.only === null ? null : onlyInWords(reading.only),
  }
}

/** As the record calls them; an empty name where the reading has no places. */
export function placesOf(reading: ReadingSheet, found: FoundLines | null): readonly string[] {
  if (found !== null) return linesOf(reading, found)
  return reading.positions.length === 0 ? [''] : reading.positions
}

function linesOf({ positions }: ReadingSheet, found: FoundLines | null): readonly string[] {
  const places = positions.map(inWords)
  if (found === null) return places
  const numbered = found.lines.map((line) => `${found.what} ${line}`)
  return places.length === 0 ? numbered : numbered.flatMap((line) => places.map((place) => `${line}, ${place}`))
}

function answersOf(reading: ReadingSheet): ReadingBlock['answers'] {
  const passes = reading.passes.map((text) => ({ text, passes: true }))
  const fails = reading.fails.map((text) => ({ text, passes: false }))
  return [
    ...(passes.length > 0 ? passes : [{ text: 'yes', passes: true }]),
    ...(fails.length > 0 ? fails : [{ text: 'no', passes: false }]),
  ]
}

export function torqueBlock(stepFile: StepFile, step: StepSheet, torque: TorqueSheet): TorqueBlock {
  return {
    field: fieldName('torque', step.id, torque.id),
    name: inWords(torque.name),
    value: torque.limit.text,
    fastener: [torque.fastener, torque.lubrication, torque.pattern === null ? null : `${torque.pattern} order`]
      .filter((part) => part !== null)
      .join(' · ')
      .replace(/order order$/, 'order'),
    tool: resourceInWords(stepFile, torque.tool),
    facts: torque.facts.map((fact) => ({ label: inWords(fact.name), text: fact.text })),
    passes: torque.passes.length > 0 ? torque.passes.map((pass) => pass.text) : ['to the full value'],
    worked: workingsOfTorque(step, torque).map(({ says }) => says),
    only: torque.only === null ? null : onlyInWords(torque.only),
  }
}

function resourceInWords(stepFile: StepFile, id: string | null): string | null {
  if (id === null) return null
  const all = Object.values(stepFile.resources).flat()
  const found = all.find((resource) => resource.id === id)
  return found ? `${found.name}${found.name === inWords(id) || !/\d$/.test(id) ? '' : ` (${id})`}` : inWords(id)
}

const functionWords = new Set(
  'abs min max mean sum span count any all clamp and or not in limit previous first of round'.split(' '),
)

/**
 * An expression as words with a blank behind each value that someone has to carry over:
 *
 *     mean(depth) − 0.15 mm   →   mean( depth: [first  ] [second  ] ) − 0.15 mm
 */
export function arithmetic(stepFile: StepFile, expression: string): readonly ArithmeticPiece[] {
  const positions = positionsByName(stepFile)
  const pieces: ArithmeticPiece[] = []
  const name = /[\p{L}_][\p{L}\p{N}_]*(?:-[\p{L}\p{N}_]+)*(?:\.[\p{L}\p{N}_°-]+)?/gu
  let from = 0
  const words = (text: string) => {
    const shown = signsOfPrint(text)
    if (shown !== '') pieces.push({ kind: 'words', text: shown })
  }
  for (const match of expression.matchAll(name)) {
    const [base = '', position] = match[0].split('.')
    const known = positions.get(base)
    if (known === undefined || functionWords.has(base)) continue
    words(expression.slice(from, match.index))
    from = match.index + match[0].length
    const asked = position === undefined ? known : [inWords(position)]
    if (asked.length === 0) pieces.push({ kind: 'blank', text: inWords(base) })
    if (asked.length === 1) pieces.push({ kind: 'blank', text: `${inWords(base)} ${asked.join('')}` })
    if (asked.length < 2) continue
    pieces.push({ kind: 'words', text: `${inWords(base)}:` })
    for (const one of asked) pieces.push({ kind: 'blank', text: one })
  }
  words(expression.slice(from))
  return pieces
}

function positionsByName(stepFile: StepFile): ReadonlyMap<string, readonly string[]> {
  const found = new Map<string, readonly string[]>()
  for (const phase of stepFile.phases) {
    for (const step of allSteps(phase.steps)) {
      for (const reading of step.readings) {
        if (!found.has(reading.name)) found.set(reading.name, reading.positions.map(inWords))
      }
    }
  }
  return found
}
