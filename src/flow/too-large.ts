import type { Procedure } from '../model/procedure.ts'
import type { FlowFault } from './proof.ts'
import type { Run } from './run.ts'

const MOST_NAMED = 3

/** Says that not every way could be followed, and what made them so many. */
export function tooLarge(procedure: Procedure, runs: readonly Run[], variantsLeft: number): FlowFault | null {
  const run = runs.find((candidate) => candidate.isTooLarge)
  if (run === undefined && variantsLeft <= 0) return null
  const reason = run
    ? `after ${run.all.count} situations; what differs most is ${widest(run).join(', ')}`
    : `there are ${runs.length + variantsLeft} combinations of variants`
  return {
    fault: 'not-proved',
    subject: 'document',
    at: procedure.document.at,
    step: null,
    message: `Not every way through this work could be followed: ${reason}. Nothing is proved.`,
    advice: 'Split the document, bring ways together sooner, or lower `at-most` of what is done again.',
    story: [],
    length: 0,
    alsoAt: [],
    related: [],
  }
}

/** The parts of the situations with the most values met. */
function widest(run: Run): readonly string[] {
  const { layout, subjects, readings, questions } = run.plan
  const named: readonly (readonly [string, number])[] = [
    ...subjects.states.flatMap((state, index) => [
      [state.id, layout.value[index] ?? -1] as const,
      [`the proof of ${state.id}`, layout.proof[index] ?? -1] as const,
      [`the age of the proof of ${state.id}`, layout.age[index] ?? -1] as const,
    ]),
    ...subjects.roles.map((role, index) => [`where ${role || 'somebody'} is`, layout.place[index] ?? -1] as const),
    ...readings.tracked.map((reading, index) => [reading.id, layout.reading[index] ?? -1] as const),
    ...questions.map(
      (question, index) => [`the answer to "${question.key.split(' of ')[0]}"`, layout.answer[index] ?? -1] as const,
    ),
    ...[...layout.taken].map(([way, slot]) => [`how often ${way.split('#')[0]} was done again`, slot] as const),
  ]
  const bytes = new Uint8Array(run.all.rows.buffer, 0, run.all.count * layout.width)
  const counted = named.flatMap(([name, slot]) => {
    if (slot < 0) return []
    const values = new Set<number>()
    for (let at = slot; at < bytes.length; at += layout.width) values.add(bytes[at] ?? 0)
    return [{ name, count: values.size }]
  })
  return counted
    .sort((a, b) => b.count - a.count)
    .slice(0, MOST_NAMED)
    .map(({ name, count }) => `${name} (${count})`)
}
