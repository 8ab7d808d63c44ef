import type { StepFile } from '../../step-file/step-file.ts'
import { onlyInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type ReadingSheet, type StepSheet, type TorqueSheet } from '../../wording/step-file-parts.ts'
import { workingsOfTorque } from '../../wording/working-text.ts'
import type { ArithmeticPiece, ReadingBlock, TorqueBlock } from './sheet.ts'

export function readingBlock(stepFile: StepFile, reading: ReadingSheet): ReadingBlock {
  const limit = reading.limit
  const named = resourceInWords(stepFile, reading.instrument)
  return {
    name: inWords(reading.name),
    kind: reading.kind,
    asks: reading.asks,
    instance: reading.instance === null ? null : inWords(reading.instance),
    limit: limit?.text ?? null,
    unit: limit?.unit ?? reading.unit ?? '',
    judged: limit !== null && (limit.lower !== null || limit.upper !== null),
    instrument: named,
    notes: [
      ...(reading.given === null ? [] : [{ label: 'given', text: reading.given }]),
      ...reading.facts.map((fact) => ({ label: inWords(fact.name), text: fact.text })),
    ],
    positions: reading.positions.map(inWords),
    answers: reading.kind === 'check' ? answersOf(reading) : [],
    arithmetic: reading.expression === null ? [] : arithmetic(stepFile, reading.expression),
    only: reading.only === null ? null : onlyInWords(reading.only),
  }
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
    const shown = text.replaceAll(' - ', ' − ').replaceAll('*', '×').replaceAll('<=', '≤').replaceAll('>=', '≥').trim()
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
