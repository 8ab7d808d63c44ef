import type { StepFile } from '../../step-file/step-file.ts'
import { rolesInWords, zoneInWords } from '../../wording/people-text.ts'
import { whatCanKill } from '../../wording/what-can-kill.ts'
import { energyLines } from './energy-lines.ts'
import { exposuresOf, type RestingClaim } from './exposure.ts'
import { acceptedLines, EXPOSED, exposureLines } from './exposure-lines.ts'
import { placedSteps, placesInShort } from './places.ts'
import { holdLines } from './proof-lines.ts'

/** What is missing, the worst first. `group` counts them for the head of the audit. */
export const GAPS = {
  accepted: { words: 'accepted without proof', group: 'unproved' },
  'nothing-shown': { words: 'nothing was shown', group: 'unproved' },
  word: { words: 'nothing proves it', group: 'unproved' },
  exposed: { words: 'there on purpose, no signature says so', group: 'unproved' },
  disagree: { words: 'procedures disagree', group: 'undeclared' },
  energy: { words: 'energy not dealt with', group: 'undeclared' },
  'left-out': { words: 'energy left out, dealt with elsewhere', group: 'undeclared' },
  undeclared: { words: 'nobody declared it', group: 'undeclared' },
  'own-work': { words: 'may sign own work', group: 'own-work' },
  unsigned: { words: 'read or tested, nobody signs', group: 'unsigned' },
  danger: { words: 'danger held by rules alone', group: 'danger' },
  'exposed-signed': { words: 'there on purpose, signed for', group: 'on-purpose' },
} as const

export type GapKind = keyof typeof GAPS
export type GapGroup = (typeof GAPS)[GapKind]['group']

export interface GapLine {
  readonly kind: GapKind
  /** Numbers of the steps; empty for the whole document. */
  readonly steps: string
  readonly who: string
  readonly where: string
  readonly says: string
  /** For an energy: its id, by which procedures are laid side by side. */
  readonly energy?: string
}

/** Everything in one procedure by which somebody could be exposed without signed proof, the worst first. */
export function gapLines(stepFile: StepFile): readonly GapLine[] {
  return worstGapsFirst([
    ...acceptedGaps(stepFile),
    ...shownGaps(stepFile),
    ...placeGaps(stepFile),
    ...purposeGaps(stepFile),
    ...dangerGaps(stepFile),
    ...energyGaps(stepFile),
    ...ownWorkGaps(stepFile),
  ])
}

export function worstGapsFirst<Line extends { readonly kind: GapKind }>(lines: readonly Line[]): readonly Line[] {
  const order = Object.keys(GAPS)
  return lines.toSorted((a, b) => order.indexOf(a.kind) - order.indexOf(b.kind))
}

/** Faults of the flow and of locks that somebody accepted: there the work goes on without what is asked for. */
function acceptedGaps(stepFile: StepFile): readonly GapLine[] {
  return acceptedLines(stepFile)
    .filter(({ finding }) => /^(?:flow|lockout|holds)\//.test(finding) && finding !== EXPOSED)
    .map(({ where, messages, because, role }) => ({
      kind: 'accepted',
      steps: where.replace(/^(?:Step|Phase) /, ''),
      who: '',
      where: '',
      says: `${messages} Accepted by the ${role}: ${because}`,
    }))
}

const NOT_SHOWN: Readonly<Record<StepFile['proof']['verdict'], string | null>> = {
  proved: null,
  faulty: 'Not everything holds on every way through this work.',
  'not-proved': 'There are more ways through this work than could be followed, so nothing is shown.',
  'nothing-to-prove': 'It declares no states and no places where people can be hurt, so nobody looked for any.',
}

function shownGaps(stepFile: StepFile): readonly GapLine[] {
  const says = NOT_SHOWN[stepFile.proof.verdict]
  return says === null ? [] : [{ kind: 'nothing-shown', steps: '', who: 'everyone', where: '', says }]
}

function placeGaps(stepFile: StepFile): readonly GapLine[] {
  return exposuresOf(stepFile).flatMap(({ zone, who, rests }) =>
    (['word', 'unsigned'] as const).flatMap((kind): readonly GapLine[] => {
      const claims = rests.filter((one) => (kind === 'word' ? one.kind === 'word' : isUnsigned(one)))
      if (claims.length === 0) return []
      const named = [...new Set(claims.map(({ claim, proof }) => (proof === '' ? claim : `${claim} (${proof})`)))].join(
        ', ',
      )
      return [
        {
          kind,
          steps: placesInShort([...new Set(claims.flatMap(({ steps }) => steps))]),
          who,
          where: zoneInWords(stepFile, zone.id),
          says: kind === 'word' ? `Safe only with: ${named}. Nothing proves that.` : `Rests on: ${named}.`,
        },
      ]
    }),
  )
}

const isUnsigned = ({ kind }: RestingClaim): boolean => kind === 'reading' || kind === 'test'

function purposeGaps(stepFile: StepFile): readonly GapLine[] {
  return exposureLines(stepFile).map(({ place, who, zones, because, isSigned, agreed }) => ({
    kind: isSigned ? 'exposed-signed' : 'exposed',
    steps: place,
    who,
    where: zones,
    says: [because, ...agreed].join(' '),
  }))
}

/** Dangers of an energy that the procedure names, and that no proof holds where they are met. */
function dangerGaps(stepFile: StepFile): readonly GapLine[] {
  const steps = placedSteps(stepFile)
  const withEnergy = new Set(stepFile.hazards.filter(({ energyClass }) => energyClass !== null).map(({ id }) => id))
  return whatCanKill(stepFile, Number.POSITIVE_INFINITY)
    .lines.filter(({ signalWord, isProved, id }) => signalWord !== null && !isProved && withEnergy.has(id))
    .map(({ signalWord, what, held, metAt }) => ({
      kind: 'danger',
      steps: metAt,
      who: rolesInWords(steps.find(({ step }) => step.number === metAt)?.step.by ?? []),
      where: '',
      says: `${(signalWord ?? '').toUpperCase()}: ${what.replace(/[.!]$/, '')}. Nothing proves what holds it: ${held}`,
    }))
}

function energyGaps(stepFile: StepFile): readonly GapLine[] {
  const gap = (kind: GapKind, says: string): GapLine => ({ kind, steps: '', who: '', where: '', says })
  if (stepFile.machine === null)
    return [
      gap(
        'undeclared',
        'It names no machine, so nothing says which energies there are, and nobody was asked about them.',
      ),
    ]
  // What somebody accepted stands above, with who and why.
  const isAccepted = (id: string) =>
    stepFile.accepted.some(
      ({ finding, messages }) =>
        finding === 'flow/energy-undeclared' && messages.some((message) => message.includes(`"${id}"`)),
    )
  return energyLines(stepFile)
    .filter(({ id, dealt }) => dealt === 'named' || (dealt === 'silent' && !isAccepted(id)))
    .map(({ id, what, dealt }) => ({
      ...gap(
        'energy',
        dealt === 'silent'
          ? `${what}: no state follows it, and no reason is given.`
          : `${what}: a state is named for it, but no step makes it safe and nothing proves it.`,
      ),
      energy: id,
    }))
}

function ownWorkGaps(stepFile: StepFile): readonly GapLine[] {
  return holdLines(stepFile)
    .filter(({ proves, signsOwnWork }) => signsOwnWork && proves !== '')
    .map(({ label, place, role, proves, zones }) => ({
      kind: 'own-work',
      steps: place,
      who: role,
      where: zones,
      says: `${label} proves ${proves}, and who signs may be who did the step.`,
    }))
}
