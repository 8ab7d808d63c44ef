import { evaluateExpression } from '../quantities/evaluate-expression.ts'
import { type Expression, namesIn } from '../quantities/expression.ts'
import { type ExpressionValue, holds, itemsInUnit } from '../quantities/expression-values.ts'
import { limitOfPrinted } from '../quantities/judge-reading.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import type { Limit, Parsed } from '../quantities/quantity-types.ts'
import { exactPlaces, toDecimalText } from '../quantities/rational.ts'
import { workOutLimit } from '../quantities/worked-limit.ts'
import type { DecideItem, Job, JobItem, JobReading, StepItem } from './job.ts'
import { type JobState, readingKey } from './job-state.ts'
import { knownValues } from './known-values.ts'
import { readingsMeant } from './readings-meant.ts'

/** Whether a condition holds by the readings taken; null while they do not say. */
export function conditionHolds(job: Job, state: JobState, at: JobItem, condition: string): boolean | null {
  const value = evaluated(job, state, at, condition)
  return value === null ? null : holds(value)
}

/** A derived value in the unit of its limit, `0.013 mm`; null while readings are missing. */
export function workedOut(job: Job, state: JobState, at: JobItem, reading: JobReading): string | null {
  if (reading.expression === null) return null
  const value = evaluated(job, state, at, reading.expression)
  const unit = reading.limit?.unit ?? reading.unit ?? ''
  const item = value === null ? undefined : itemsInUnit(value, unit)?.[0]
  if (item === undefined) return null
  // What never ends in decimals is cut far below what any limit tells apart.
  return `${toDecimalText(item, exactPlaces(item) ?? 9)} ${unit}`.trim()
}

/** The limit that a reading is judged by now; a problem while the readings it rests on are missing, null where it has none. */
export function limitNow(job: Job, state: JobState, at: StepItem, reading: JobReading): Parsed<Limit> | null {
  if (reading.workedLimit !== null) return workOutLimit(reading.workedLimit, knownValues(job, state, at))
  const limit = reading.limit === null ? null : limitOfPrinted(reading.limit)
  return limit && { ok: true, value: limit }
}

/** Why the readings speak against a branch; empty where they do not. */
export function whyNotBranch(job: Job, state: JobState, item: DecideItem, index: number): string {
  const branch = item.branches[index]
  if (branch === undefined) return ''
  if (branch.when !== null) {
    const isSo = conditionHolds(job, state, item, branch.when)
    if (isSo === false) return `By your readings it is not so: ${branch.when}.`
    return isSo === null ? whySpoiled(job, state, item, branch.when) : ''
  }
  if (!branch.otherwise) return ''
  const conditions = item.branches.flatMap(({ when }) => when ?? [])
  const other = conditions.find((when) => conditionHolds(job, state, item, when) === true)
  if (other !== undefined) return `By your readings it is: ${other}.`
  return conditions.map((when) => whySpoiled(job, state, item, when)).find((why) => why !== '') ?? ''
}

/** Says which reading of a condition must be taken again, because a step made it worthless; empty where none. */
export function whySpoiled(job: Job, state: JobState, at: JobItem, condition: string): string {
  const expression = parseExpression(condition)
  if (!expression.ok || conditionHolds(job, state, at, condition) !== null) return ''
  for (const name of latestNames(expression.value))
    for (const { item, reading, positions } of readingsMeant(job, state, at, name))
      for (const position of positions) {
        const by = state.spoiled.get(readingKey(reading.id, position))
        if (by === undefined) continue
        const spoiler = job.items.find(({ id }) => id === by)?.number ?? ''
        return `Take ${reading.words} again at ${item.number}: it no longer counts after ${spoiler}.`
      }
  return ''
}

function latestNames(expression: Expression): readonly string[] {
  return namesIn(expression).flatMap(({ name, which }) => (which === 'latest' || which === 'all' ? [name] : []))
}

/** The branch that the readings lead to, or null where they do not settle it or people answer. */
export function branchByReadings(job: Job, state: JobState, item: DecideItem): number | null {
  const verdicts = item.branches.map(({ when }) => (when === null ? false : conditionHolds(job, state, item, when)))
  const first = verdicts.findIndex((verdict) => verdict !== false)
  if (first !== -1) return verdicts[first] === true ? first : null
  const otherwise = item.branches.findIndex((branch) => branch.otherwise)
  const byPeople = item.branches.some(({ when, otherwise: rest }) => when === null && !rest)
  return otherwise === -1 || byPeople ? null : otherwise
}

function evaluated(job: Job, state: JobState, at: JobItem, text: string): ExpressionValue | null {
  const expression = parseExpression(text)
  if (!expression.ok) return null
  const value = evaluateExpression(expression.value, knownValues(job, state, at))
  return value.ok ? value.value : null
}
