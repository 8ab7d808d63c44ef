import type { StepFile } from '../../step-file/step-file.ts'
import { placeOfAcceptance } from '../../wording/accepted-text.ts'
import { holdLabels } from '../../wording/hold-text.ts'
import { rolesInWords, zoneInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import type { StepSheet } from '../../wording/step-file-parts.ts'
import { type PlacedStep, placedSteps, placeInWords } from './places.ts'

/** Somebody is on purpose where it is not safe. */
export interface ExposureLine {
  /** `3.2`, or `3` for a whole phase. */
  readonly number: string
  readonly position: string
  readonly place: string
  readonly who: string
  readonly zones: string
  readonly because: string
  readonly controls: readonly string[]
  /** Who must agree, to what, and by which signature: `supervisor: … (H2)`. */
  readonly agreed: readonly string[]
  /** Whether everyone who must agree has a signature that says so, before it starts. */
  readonly isSigned: boolean
}

/** Every exposure that the procedure declares, accepted or not, in the order of the print. */
export function exposureLines(stepFile: StepFile): readonly ExposureLine[] {
  const steps = placedSteps(stepFile)
  return stepFile.phases.flatMap((phase) => {
    const position = phase.position?.label ?? ''
    return [
      ...phase.exposed.map((exposed) => {
        const first = steps.find((placed) => placed.phase === phase)
        return exposureLine(stepFile, exposed, phase.number, position, first)
      }),
      ...steps
        .filter((placed) => placed.phase === phase)
        .flatMap((placed) =>
          placed.step.exposed.map((exposed) => exposureLine(stepFile, exposed, placed.step.number, position, placed)),
        ),
    ]
  })
}

function exposureLine(
  stepFile: StepFile,
  { zones, who, because, controls, agreedBy }: StepSheet['exposed'][number],
  number: string,
  position: string,
  begins: PlacedStep | undefined,
): ExposureLine {
  const signatures = agreedBy.map(({ name, says }) => signatureFor(stepFile, name, says, begins))
  return {
    number,
    position: inWords(position),
    place: placeInWords(number, position),
    who: who.length === 0 ? 'everyone who does it' : rolesInWords(who),
    zones: zones.map((zone) => zoneInWords(stepFile, zone)).join('; '),
    because,
    controls,
    agreed: agreedBy.map(({ name, says }, index) => `${inWords(name)}: ${says} (${signatures[index]?.words})`),
    isSigned: signatures.length > 0 && signatures.every(({ isBefore }) => isBefore),
  }
}

/**
 * What must be agreed to is not signed for unless a hold of the same role says the same, at an earlier step or before the step
 * itself begins.
 */
function signatureFor(stepFile: StepFile, role: string, says: string, begins: PlacedStep | undefined) {
  const labels = holdLabels(stepFile)
  const signed = stepFile.holds.filter((hold) => hold.role === role && hold.says === says)
  const before = signed.filter(({ step, hold }) => {
    const at = placedSteps(stepFile).find((placed) => placed.step.id === step)
    if (at === undefined || begins === undefined) return false
    const opens = at.step.holds.some(({ id, timing }) => id === hold && timing === 'before')
    return at.order < begins.order || (at.order === begins.order && opens)
  })
  const names = (holds: typeof signed) => holds.map(({ hold }) => labels.get(hold) ?? '').join(', ')
  if (before.length > 0) return { words: names(before), isBefore: true }
  if (signed.length > 0) return { words: `${names(signed)}, signed only afterwards`, isBefore: false }
  return { words: 'no numbered signature says so', isBefore: false }
}

/** A finding that somebody accepted by name. */
export interface AcceptedLine {
  readonly finding: string
  readonly where: string
  readonly role: string
  readonly messages: string
  readonly because: string
}

/** The finding by which every exposure is told. */
export const EXPOSED = 'flow/exposed'

export function acceptedLines(stepFile: StepFile): readonly AcceptedLine[] {
  return stepFile.accepted.map((accepted) => ({
    finding: accepted.finding,
    where: placeOfAcceptance(stepFile, accepted),
    role: inWords(accepted.role),
    messages: accepted.messages.join(' '),
    because: accepted.because,
  }))
}
