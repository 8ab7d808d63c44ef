import type { StepFile } from '../../step-file/step-file.ts'
import { holdLabels, holdWord } from '../../wording/hold-text.ts'
import { claimsProvedBy, proofKind, proversOf } from '../../wording/how-proved.ts'
import { rolesInWords } from '../../wording/people-text.ts'
import { shownProof } from '../../wording/proof-text.ts'
import { claimsInWords, inWords, stateInWords } from '../../wording/state-text.ts'
import type { StepSheet } from '../../wording/step-file-parts.ts'
import { placedSteps, placeInWords } from './places.ts'

/** One signature: what it says, what it proves and who may give it. */
export interface HoldLine {
  readonly label: string
  readonly word: string
  readonly number: string
  readonly position: string
  readonly place: string
  readonly role: string
  /** Who must not be the same person; empty where nobody is named. */
  readonly different: string
  /** Whether the one who signs may be the one who did the step. */
  readonly signsOwnWork: boolean
  readonly says: string
  /** Empty where it proves no state. */
  readonly proves: string
  /** What its step names as proved, and this signature does not prove. */
  readonly notProves: string
  /** Places that rest on it, by name: `wheel end left`. */
  readonly zones: string
  readonly hazards: readonly string[]
}

/** Every hold, witness, verify and review, in the order of the job. */
export function holdLines(stepFile: StepFile): readonly HoldLine[] {
  const labels = holdLabels(stepFile)
  const steps = new Map(placedSteps(stepFile).map(({ step }) => [step.id, step]))
  return stepFile.holds.map((hold) => {
    const step = steps.get(hold.step)
    const proved = step === undefined ? [] : claimsProvedBy(stepFile, step, hold.hold)
    const resting = stepFile.zones.filter(({ safeWhen }) =>
      safeWhen.some(({ state }) => proved.some((claim) => claim.state === state)),
    )
    const different = stepFile.roles.find(({ id }) => id === hold.role)?.differentFrom ?? []
    return {
      label: labels.get(hold.hold) ?? '',
      word: holdWord(hold.kind),
      number: hold.number,
      position: inWords(hold.position ?? ''),
      place: placeInWords(hold.number, hold.position),
      role: inWords(hold.role),
      different: rolesInWords(different),
      signsOwnWork: mayBeDoer(step?.by ?? [], different),
      says: hold.says,
      proves: claimsInWords(stepFile, proved),
      notProves: claimsInWords(
        stepFile,
        hold.proves.filter(({ state }) => !proved.some((claim) => claim.state === state)),
      ),
      zones: resting.map(stateInWords).join(', '),
      hazards: hold.hazards.map((id) => stepFile.hazards.find((hazard) => hazard.id === id)?.hazard ?? inWords(id)),
    }
  })
}

function zoneName(stepFile: StepFile, id: string): string {
  const zone = stepFile.zones.find((candidate) => candidate.id === id)
  return zone === undefined ? inWords(id) : stateInWords(zone)
}

/** Where nobody is named who does the step, it may be anybody. */
function mayBeDoer(doers: readonly string[], different: readonly string[]): boolean {
  return doers.length === 0 || doers.some((role) => !different.includes(role))
}

/** What a step names as proved and no signature of it proves. */
export interface UnsignedProofLine {
  readonly number: string
  readonly position: string
  readonly place: string
  readonly who: string
  readonly says: string
  readonly proves: string
  /** `reading`, `test`, or why it counts as no proof. */
  readonly how: string
}

export function unsignedProofLines(stepFile: StepFile): readonly UnsignedProofLine[] {
  return placedSteps(stepFile).flatMap(({ step, position, place }) => {
    const signed = step.holds.flatMap((hold) => claimsProvedBy(stepFile, step, hold.id))
    const unsigned = step.proves.filter((claim) => !signed.includes(claim))
    return [...new Set(unsigned.map((claim) => howProved(stepFile, step, claim.state)))].map((how) => ({
      number: step.number,
      position,
      place,
      who: rolesInWords(step.by),
      says: step.text.plain,
      proves: claimsInWords(
        stepFile,
        unsigned.filter((claim) => howProved(stepFile, step, claim.state) === how),
      ),
      how,
    }))
  })
}

function howProved(stepFile: StepFile, step: StepSheet, state: string): string {
  if (proversOf(stepFile, state).length === 0) return 'no proof is asked for'
  const kind = proofKind(stepFile, step, state)
  return kind === 'word' ? 'nothing that counts as proof' : kind
}

/** A place that must be empty before something starts, and who counts heads. */
export interface HeadcountLine {
  readonly number: string
  readonly position: string
  readonly place: string
  readonly who: string
  readonly zones: string
}

export function headcountLines(stepFile: StepFile): readonly HeadcountLine[] {
  const steps = placedSteps(stepFile)
  return stepFile.phases.flatMap((phase) => {
    const ofSteps = steps.filter((placed) => placed.phase === phase).map(({ step }) => step)
    return [phase, ...ofSteps]
      .filter(({ clear }) => clear.length > 0)
      .map(({ number, clear, clearedBy }) => ({
        number,
        position: inWords(phase.position?.label ?? ''),
        place: placeInWords(number, phase.position?.label ?? null),
        who: clearedBy.length === 0 ? 'nobody is named' : rolesInWords(clearedBy),
        zones: clear.map((id) => zoneName(stepFile, id)).join(', '),
      }))
  })
}

type PropertyKind = StepFile['proof']['properties'][number]['kind']

/** In the order of the page: where people can be hurt stands first. */
const KIND_WORDS: Readonly<Record<PropertyKind, string>> = {
  zone: 'Places where people are',
  never: 'Never together',
  held: 'Held at every moment',
  span: 'Kept through a stretch of work',
  lock: 'Locks',
  'put-back': 'As it must be at the end',
  stop: 'Where the job stops',
  readings: 'Readings',
}

export interface ShownGroup {
  readonly kind: PropertyKind
  readonly title: string
  readonly lines: readonly { readonly says: string; readonly restsOn: string; readonly steps: string }[]
}

/** What was shown of every way through the work, by what it is about. */
export function shownGroups(stepFile: StepFile): readonly ShownGroup[] {
  const { lines } = shownProof(stepFile)
  const kinds = Object.keys(KIND_WORDS) as PropertyKind[]
  return kinds
    .map((kind) => ({
      kind,
      title: KIND_WORDS[kind],
      lines: stepFile.proof.properties.flatMap((property, index) => {
        const line = lines[index]
        return property.kind === kind && line !== undefined ? [{ ...line, steps: property.steps.join(', ') }] : []
      }),
    }))
    .filter((group) => group.lines.length > 0)
}
