import type { StepFile } from '../../step-file/step-file.ts'
import { type ProofKind, proofKind, proversOf } from '../../wording/how-proved.ts'
import { rolesInWords } from '../../wording/people-text.ts'
import { proofInWords, proofsBefore } from '../../wording/proof-trail.ts'
import { claimInWords } from '../../wording/state-text.ts'
import type { ClaimSheet, ZoneSheet } from '../../wording/step-file-parts.ts'
import { type PlacedStep, placedSteps } from './places.ts'

/** A place with the steps in which somebody is there, and what its safety rests on while they are. */
export interface Exposure {
  readonly zone: ZoneSheet
  readonly steps: readonly PlacedStep[]
  readonly who: string
  readonly rests: readonly RestingClaim[]
}

/** One state that a place rests on, by how it is proved at the steps where somebody is there. */
export interface RestingClaim {
  readonly kind: ProofKind
  /** `heat cool` */
  readonly claim: string
  /** `reading or test at 1.6`; empty where nothing proves it. */
  readonly proof: string
  readonly steps: readonly PlacedStep[]
}

/**
 * Every place where somebody is at some step. Where the ways were followed, those steps are the ones that were seen on any way;
 * else those whose author puts somebody there.
 */
export function exposuresOf(stepFile: StepFile): readonly Exposure[] {
  const placed = placedSteps(stepFile)
  const before = proofsBefore(stepFile)
  return stepFile.zones.flatMap((zone) => {
    const steps = stepsInside(stepFile, zone, placed)
    if (steps.length === 0) return []
    const rests = zone.safeWhen.flatMap((claim) => restingOn(stepFile, claim, steps, before))
    return [{ zone, steps, who: peopleInside(zone, steps), rests }]
  })
}

/** Steps of another side do not count, and those that say `exposed` are told by themselves. */
function stepsInside(stepFile: StepFile, zone: ZoneSheet, placed: readonly PlacedStep[]): readonly PlacedStep[] {
  const shown = stepFile.proof.properties.find(({ kind, subject }) => kind === 'zone' && subject === zone.id)
  return placed.filter(({ phase, step }) => {
    if ([...step.exposed, ...phase.exposed].some(({ zones }) => zones.includes(zone.id))) return false
    const written = [...(step.where.length > 0 ? step.where : phase.where), ...step.enters]
    if (written.some(({ zones }) => zones.includes(zone.id))) return true
    const side = phase.position?.values.find(({ name }) => name === 'position')?.text
    const sameSide = zone.position === null || side === undefined || side === zone.position
    return sameSide && shown?.steps.includes(step.number)
  })
}

function peopleInside(zone: ZoneSheet, steps: readonly PlacedStep[]): string {
  const roles = steps.flatMap(({ phase, step }) => {
    const written = [...(step.where.length > 0 ? step.where : phase.where), ...step.enters]
    const here = written.filter(({ zones }) => zones.includes(zone.id))
    return here.length === 0 ? step.by : here.flatMap(({ role }) => (role === null ? step.by : [role]))
  })
  return roles.length === 0 ? 'whoever does it' : rolesInWords([...new Set(roles)])
}

function restingOn(
  stepFile: StepFile,
  claim: ClaimSheet,
  steps: readonly PlacedStep[],
  before: ReturnType<typeof proofsBefore>,
): readonly RestingClaim[] {
  const groups = new Map<string, RestingClaim>()
  for (const placed of steps) {
    for (const { kind, proof } of proofAt(stepFile, claim, placed, before)) {
      const key = `${kind} ${proof}`
      const group = groups.get(key)
      groups.set(key, {
        kind,
        proof,
        claim: claimInWords(stepFile, claim),
        steps: [...(group?.steps ?? []), placed],
      })
    }
  }
  return [...groups.values()]
}

/**
 * What proves a claim just before a step. Where the order of the print shows no proof, but the ways were followed and it holds on
 * each, every step that proves the state is taken: which of them counts depends on the way.
 */
function proofAt(
  stepFile: StepFile,
  claim: ClaimSheet,
  { step }: PlacedStep,
  before: ReturnType<typeof proofsBefore>,
): readonly { readonly kind: ProofKind; readonly proof: string }[] {
  if (proversOf(stepFile, claim.state).length === 0) return [{ kind: 'word', proof: '' }]
  const placed = placedSteps(stepFile)
  const standing = before.get(step.id)?.get(claim.state)
  const proving = placed.find((one) => one.step.id === standing?.step)
  if (standing !== undefined && proving !== undefined)
    return [
      {
        kind: standing.labels.length > 0 ? 'sight' : proofKind(stepFile, proving.step, claim.state),
        proof:
          standing.labels.length > 0
            ? proofInWords(standing)
            : `${proofKind(stepFile, proving.step, claim.state)} at ${standing.number}`,
      },
    ]
  const kinds = placed
    .filter((one) => one.step.proves.some(({ state }) => state === claim.state))
    .map((one) => ({ kind: proofKind(stepFile, one.step, claim.state), place: one.place }))
    .filter(({ kind }) => kind !== 'word')
  if (kinds.length === 0 || stepFile.proof.verdict !== 'proved') return [{ kind: 'word', proof: '' }]
  const weakest = (['test', 'reading', 'sight'] as const).find((kind) => kinds.some((one) => one.kind === kind))
  const places = [...new Set(kinds.map(({ place }) => place))]
  return [{ kind: weakest ?? 'word', proof: `proved at ${places.join(' or ')}, by the way taken` }]
}
