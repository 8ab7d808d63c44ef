import { partId, passTick } from '../../record/job-things.ts'
import { answersOf } from '../../record/make-job.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { signsOfPrint } from '../../wording/formula-text.ts'
import { onlyInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import type { ReadingSheet, StepSheet, TorqueSheet } from '../../wording/step-file-parts.ts'
import { workingsOfTorque } from '../../wording/working-text.ts'

export function readingView(stepFile: StepFile, step: StepSheet, reading: ReadingSheet) {
  const key = partId(step, reading.id)
  const { passes, fails } = answersOf(reading)
  const isCheck = reading.kind === 'check'
  const positions = reading.positions.length === 0 ? [null] : reading.positions
  return {
    key,
    title: reading.asks ?? inWords(reading.name),
    kind: [kindWord[reading.kind], reading.instance === null ? '' : inWords(reading.instance)]
      .filter(Boolean)
      .join(', '),
    limit: reading.limit?.text ?? '',
    unit: unitsOf(reading)[0] ?? '',
    only: onlyView(reading.only),
    condition: reading.only === null ? '' : `Only for ${onlyInWords(reading.only)}`,
    expression: signsOfPrint(reading.expression ?? ''),
    given: reading.given === null ? '' : `At: ${inWords(reading.given)}`,
    instrument:
      reading.instrument === null
        ? null
        : { key, label: `Number of the ${resourceName(stepFile, reading.instrument)}` },
    facts: factViews(
      reading.facts.map((fact) => (fact.name === 'limit' ? { ...fact, text: signsOfPrint(fact.text) } : fact)),
    ),
    fields: positions.map((position) => ({
      position: position ?? '',
      // Read out with the field: the label alone would be "left".
      name: [reading.asks ?? inWords(reading.name), position === null ? '' : inWords(position)]
        .filter(Boolean)
        .join(', '),
      label: position === null ? '' : inWords(position),
      answers: isCheck ? [...passes, ...fails] : null,
      units: unitsOf(reading).length > 1 ? unitsOf(reading) : null,
      keypad: mayBeNegative(reading) ? 'text' : 'decimal',
    })),
  }
}

const kindWord: { readonly [kind in ReadingSheet['kind']]: string } = {
  measure: 'Measure',
  check: 'Check',
  set: 'Set',
  derive: 'Work out',
  count: 'Count',
}

/** Units to choose from beside the blank: the one that leads in the printed limit first, and the typed one among them. */
function unitsOf(reading: ReadingSheet): readonly string[] {
  const units = reading.limit === null ? [reading.unit ?? ''] : [...printedUnits(reading.limit), reading.limit.unit]
  return [...new Set(units)].filter((unit) => unit !== '')
}

function printedUnits(limit: NonNullable<ReadingSheet['limit']>): readonly string[] {
  return limit.inUnits.map(({ unit }) => unit)
}

/** A number pad has no minus sign on some tablets. */
function mayBeNegative(reading: ReadingSheet): boolean {
  const { limit } = reading
  if (limit === null) return true
  const low = limit.lower?.exact ?? limit.upper?.exact ?? '0'
  return low.startsWith('-') || limit.kind.includes('temperature') || (limit.lower === null && limit.kind !== 'count')
}

export function torqueView(stepFile: StepFile, step: StepSheet, torque: TorqueSheet) {
  return {
    key: partId(step, torque.id),
    name: inWords(torque.name),
    limit: torque.limit.text,
    only: onlyView(torque.only),
    condition: torque.only === null ? '' : `Only for ${onlyInWords(torque.only)}`,
    passes: torque.passes.map(({ text }, index) => ({ tick: passTick(step, torque, index), order: index + 1, text })),
    facts: torqueFacts(stepFile, torque),
    workings: workingsOfTorque(step, torque),
  }
}

function torqueFacts(stepFile: StepFile, torque: TorqueSheet): ReturnType<typeof factViews> {
  const lines = [
    { name: 'Fasteners', text: [torque.fastener, torque.lubrication].filter((part) => part !== null).join(', ') },
    { name: 'Order', text: torque.pattern === null ? '' : inWords(torque.pattern) },
    { name: 'With', text: torque.tool === null ? '' : resourceName(stepFile, torque.tool) },
    ...factViews(torque.facts),
  ]
  return lines.filter(({ text }) => text !== '')
}

/** For the attributes that the script reads: values that can hold no comma among themselves. */
function onlyView(only: ReadingSheet['only']): { readonly variant: string; readonly values: string } | null {
  return only === null ? null : { variant: only.variant, values: only.values.join() }
}

function factViews(facts: ReadingSheet['facts']): readonly { readonly name: string; readonly text: string }[] {
  return facts.map(({ name, text }) => ({ name: inWords(name), text }))
}

export function resourceName(stepFile: StepFile, id: string): string {
  const everything = Object.values(stepFile.resources).flat()
  return everything.find((resource) => resource.id === id)?.name ?? inWords(id)
}
