import { convertValue } from '../quantities/convert.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import { toDecimalText } from '../quantities/rational.ts'
import type { StepFile } from '../step-file/step-file.ts'
import { holdLabels } from '../wording/hold-text.ts'
import { proofInWords, proofsOf, proversByState } from '../wording/proof-trail.ts'
import { inWords, stateIdInWords } from '../wording/state-text.ts'
import type { StepSheet } from '../wording/step-file-parts.ts'
import type { JobProof } from './job.ts'

/** What a step proves, with the holds that sign for it. */
export function proofsTaken(stepFile: StepFile, step: StepSheet): readonly JobProof[] {
  const labels = holdLabels(stepFile)
  return proofsOf(step, labels, proversByState(stepFile)).map((proof) => ({
    state: proof.state,
    values: proof.values,
    says: `${stateIdInWords(stepFile, proof.state)} ${proof.values.map(inWords).join(' or ')}`,
    how: proofInWords(proof),
    holds: step.holds.filter(({ id }) => proof.labels.includes(labels.get(id) ?? '')).map(({ id }) => id),
    lapses: secondsIn(stepFile.states.find(({ id }) => id === proof.state)?.lapses ?? null),
  }))
}

/** What each state is once the step is done: as it sets it, and what follows from things locked, fitted or taken off. */
export function statesSet(step: StepSheet): readonly (readonly [string, string])[] {
  const changed = Object.entries(step.statesAfter).filter(([state, value]) => step.statesBefore[state] !== value)
  const set = step.sets.flatMap(({ state, values }) => {
    const last = values.at(-1)
    return last === undefined ? [] : [[state, last] as const]
  })
  return [...new Map([...changed, ...set])]
}

function secondsIn(typed: string | null): number | null {
  const parsed = typed === null ? null : parseQuantity(typed, 'time')
  if (!parsed?.ok) return null
  const converted = convertValue(parsed.value.value, parsed.value.unit, 's')
  return converted.ok ? Math.floor(Number(toDecimalText(converted.value, 0))) : null
}
