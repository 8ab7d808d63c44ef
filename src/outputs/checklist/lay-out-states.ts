import type { StepFile } from '../../step-file/step-file.ts'
import type { Proofs } from '../../wording/proof-trail.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import type { PhaseSheet, StateSheet } from '../../wording/step-file-parts.ts'
import type { NowItem } from './sheet.ts'

type StateValues = PhaseSheet['statesBefore']
type Group = NowItem['group']

/**
 * The states as they must be here, what can hurt first: energies and whatever has changed on this side; then what was
 * opened or locked and not yet undone; then the other side; then the rest by name, which is as it began.
 */
export function nowItems(
  stepFile: StepFile,
  phase: PhaseSheet,
  values: StateValues,
  proofs: Proofs | undefined,
): readonly NowItem[] {
  const side = phase.position?.values[0]?.text
  const items = stepFile.states.flatMap((state): readonly NowItem[] => {
    const value = values[state.id]
    if (value === undefined) return []
    const proof = proofs?.get(state.id)
    const group = groupOf(state, value, side, proof !== undefined)
    if (group === null) return []
    return [
      {
        name: stateInWords(state),
        value: inWords(value),
        proof: proof ? proof.labels.join('+') || proof.number : null,
        group,
      },
    ]
  })
  const order: readonly Group[] = ['here', 'open', 'other side', 'as begun']
  return order.flatMap((group) => together(items.filter((item) => item.group === group)))
}

function groupOf(state: StateSheet, value: string, side: string | undefined, proved: boolean): Group | null {
  if (side !== undefined && state.position !== null && state.position !== side) {
    return value === state.start ? null : 'other side'
  }
  if (state.implied) return state.end.includes(value) ? null : 'open'
  return state.energy !== null || proved || value !== state.start ? 'here' : 'as begun'
}

/** Those with the same value and the same proof are said in one breath: `brake circuit, steering BLED H1`. */
function together(items: readonly NowItem[]): readonly NowItem[] {
  const found = new Map<string, NowItem>()
  for (const item of items) {
    const key = item.group === 'as begun' ? '' : `${item.value} ${item.proof}`
    const before = found.get(key)
    found.set(key, before ? { ...before, name: `${before.name}, ${item.name}` } : item)
  }
  return [...found.values()]
}

/** One line for the head of a page: what can hurt, on this side. */
export function nowInShort(
  stepFile: StepFile,
  phase: PhaseSheet,
  values: StateValues,
  proofs: Proofs | undefined,
): string {
  const energies = { ...stepFile, states: stepFile.states.filter((state) => state.energy !== null) }
  return nowItems(energies, phase, values, proofs)
    .filter((item) => item.group === 'here')
    .map((item) => `${item.name} ${item.value.toUpperCase()}${item.proof === null ? '' : ` (${item.proof})`}`)
    .join(' · ')
}

/** `brake circuit, steering BLED`, for everything that is not as it must be at the end. */
export function openStates(stepFile: StepFile, values: StateValues): readonly string[] {
  const byValue = new Map<string, string[]>()
  for (const state of stepFile.states) {
    const value = values[state.id]
    if (value === undefined || state.end.includes(value)) continue
    byValue.set(value, [...(byValue.get(value) ?? []), stateInWords(state)])
  }
  return [...byValue].map(([value, names]) => `${names.join(', ')} ${inWords(value).toUpperCase()}`)
}
