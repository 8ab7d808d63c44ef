import type { StepFile } from '../../step-file/step-file.ts'
import { consequenceLines } from '../../wording/consequence-text.ts'
import { holdLabels, holdWord } from '../../wording/hold-text.ts'
import { type ProofKind, proofKind, proversOf, provingSignatures } from '../../wording/how-proved.ts'
import { onlyInWords, rolesInWords } from '../../wording/people-text.ts'
import { claimInWords, inWords, stateInWords } from '../../wording/state-text.ts'
import type { ClaimSheet, StateSheet } from '../../wording/step-file-parts.ts'
import { type PlacedStep, placedSteps, placesInShort } from './places.ts'

export const PROOF_WORDS: Readonly<Record<ProofKind, string>> = {
  sight: 'signed by who looked',
  reading: 'reading in limit',
  test: 'test passed',
  word: 'no proof',
}

/** One step that proves something, of one kind. */
export interface ProofLine {
  readonly place: string
  readonly kind: ProofKind
  /** `H2 HOLD`; empty without a signature. */
  readonly signature: string
  /** Who signs, or who does the step. */
  readonly who: string
  readonly independent: string
  readonly proves: string
  /** Places that rest on it. */
  readonly rests: string
  /** Each way in which it goes stale, is lost or is passed by. */
  readonly lost: readonly string[]
}

/** What proves something, in the order of the job: by which kind, who, and how it can be lost or passed by. */
export function proofLines(stepFile: StepFile): readonly ProofLine[] {
  return placedSteps(stepFile).flatMap((placed) => {
    const asked = placed.step.proves.filter(({ state }) => proversOf(stepFile, state).length > 0)
    const kinds = new Map<ProofKind, ClaimSheet[]>()
    for (const claim of asked) {
      const kind = proofKind(stepFile, placed.step, claim.state)
      kinds.set(kind, [...(kinds.get(kind) ?? []), claim])
    }
    return [...kinds].map(([kind, claims]) => proofLine(stepFile, placed, kind, claims))
  })
}

function proofLine(stepFile: StepFile, placed: PlacedStep, kind: ProofKind, claims: readonly ClaimSheet[]): ProofLine {
  const { step, place } = placed
  const labels = holdLabels(stepFile)
  const signatures = kind === 'sight' ? provingSignatures(step) : []
  const signing = signatures.filter(({ role }) => claims.some(({ state }) => proversOf(stepFile, state).includes(role)))
  const roles = signing.map(({ role }) => role)
  const states = claims.map(({ state }) => state)
  const resting = stepFile.zones.filter(({ safeWhen }) => safeWhen.some(({ state }) => states.includes(state)))
  return {
    place,
    kind,
    signature: signing.map(({ id, kind: word }) => `${labels.get(id) ?? ''} ${holdWord(word)}`).join(', '),
    who: rolesInWords(roles.length > 0 ? roles : step.by),
    independent: roles.length === 0 ? 'nobody signs' : independence(stepFile, step.by, roles),
    proves: claims.map((claim) => claimInWords(stepFile, claim)).join(', '),
    rests: resting.map(stateInWords).join(', '),
    lost: [
      ...passedBy(placed),
      ...outOfLimit(stepFile, placed, kind),
      ...claims.flatMap((claim) => endsOf(stepFile, placed, claim)),
      pauseLine(stepFile, placed, states),
    ],
  }
}

function independence(stepFile: StepFile, doers: readonly string[], signers: readonly string[]): string {
  const answers = signers.map((signer) => {
    const different = stepFile.roles.find(({ id }) => id === signer)?.differentFrom ?? []
    const same = doers.filter((role) => !different.includes(role))
    if (doers.length === 0) return 'nobody is named who does it'
    return same.length === 0 ? 'yes' : `no: may be the ${rolesInWords(same)} who did it`
  })
  return [...new Set(answers)].join('; ')
}

function passedBy({ phase, step }: PlacedStep): readonly string[] {
  const conditions = [phase.when, step.when].filter((when) => when !== null)
  const only = [phase.only, step.only].filter((one) => one !== null)
  return [
    ...(phase.kind === 'branch' ? ['Passed by where the branch is not taken: then it counts for nothing.'] : []),
    ...conditions.map((when) => `Passed by unless ${when}.`),
    ...only.map((one) => `Only for ${onlyInWords(one)}.`),
  ]
}

function outOfLimit(stepFile: StepFile, { step }: PlacedStep, kind: ProofKind): readonly string[] {
  if (step.readings.length === 0) return []
  const lines = step.consequences.flatMap((one) => consequenceLines(stepFile, one, step.id))
  if (lines.length > 0) return lines.map(({ head, text }) => `${head}: ${text}`)
  return kind === 'word' ? [] : ['Nothing says what follows out of limit.']
}

/** A change ends a proof wherever it is made; time ends it where the state says so. */
function endsOf(stepFile: StepFile, placed: PlacedStep, claim: ClaimSheet): readonly string[] {
  const state = stepFile.states.find(({ id }) => id === claim.state)
  if (state === undefined) return []
  const changes = placedSteps(stepFile).filter(
    (one) => one.order > placed.order && one.step.sets.some((change) => change.state === state.id),
  )
  const name = stateInWords(state)
  return [
    changes.length === 0
      ? `No later step changes ${name}.`
      : `${capital(name)} is changed at ${placesInShort(changes)}${provedAgain(stepFile, state, changes)}.`,
    state.lapses === null
      ? `Time does not end it: nothing says how long it counts for ${name}.`
      : `${capital(name)} counts for ${state.lapses}.`,
  ]
}

function provedAgain(stepFile: StepFile, state: StateSheet, changes: readonly PlacedStep[]): string {
  const first = changes[0]?.order ?? 0
  const again = placedSteps(stepFile).filter(
    (one) => one.order >= first && one.step.proves.some((claim) => claim.state === state.id),
  )
  return again.length === 0 ? ', not proved again after that' : `, proved again at ${placesInShort(again)}`
}

function pauseLine(stepFile: StepFile, { step }: PlacedStep, states: readonly string[]): string {
  const roles = states
    .flatMap((state) => proversOf(stepFile, state))
    .filter((prover) => prover !== 'reading' && prover !== 'test')
  return roles.length === 0
    ? `After a stop or a change of shift: done again at ${step.number}.`
    : `After a stop or a change of shift: looked at and signed again by the ${[...new Set(roles)].map(inWords).join(' or ')}.`
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

export interface RoleLine {
  readonly role: string
  readonly who: string
  readonly different: string
  readonly signs: readonly string[]
}

/** Signatures by who gives them, the roles that sign nothing left out. */
export function roleLines(stepFile: StepFile): readonly RoleLine[] {
  const labels = holdLabels(stepFile)
  const roles = [...new Set(stepFile.holds.map(({ role }) => role))]
  return roles.map((id) => {
    const role = stepFile.roles.find((one) => one.id === id)
    return {
      role: inWords(id),
      who: [role?.who ?? '', ...(role?.qualifications ?? [])].filter((part) => part !== '').join(', '),
      different: rolesInWords(role?.differentFrom ?? []),
      signs: stepFile.holds
        .filter((hold) => hold.role === id)
        .map(({ hold, number, position, says, kind }) =>
          [`${labels.get(hold)} ${holdWord(kind)} at ${number}`, inWords(position ?? ''), `: ${says}`]
            .join(' ')
            .replace(/ +:/, ':'),
        ),
    }
  })
}
