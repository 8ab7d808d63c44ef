import type { Procedure } from '../model/procedure.ts'
import type { FlowFault, ProvedProperty } from './proof.ts'
import type { Run } from './run.ts'
import { withSubSteps } from './subjects.ts'

/** What holds on every way, one sentence each, with the steps and proofs that carry it. Nothing that a fault contradicts. */
export function provedProperties(
  procedure: Procedure,
  runs: readonly Run[],
  faults: readonly FlowFault[],
): readonly ProvedProperty[] {
  const steps = procedure.phases.flatMap((phase) => withSubSteps(phase.steps))
  const broken = (names: readonly FlowFault['fault'][], subject: (subject: string) => boolean): boolean =>
    faults.some((fault) => names.includes(fault.fault) && subject(fault.subject))
  const changing = (states: readonly string[]): readonly string[] =>
    numbers(steps.filter((step) => step.sets.some((change) => states.includes(change.state))))
  const provedAt = (states: readonly string[]): readonly string[] =>
    numbers(steps.filter((step) => step.proves.some((claim) => states.includes(claim.state))))
  const held = procedure.states.filter((state) => state.heldBy.length > 0)
  const putBack = procedure.states.filter((state) => !(state.implied && state.values.includes('locked')))
  const locks = procedure.states.filter((state) => state.values.includes('locked') && state.implied)
  const stops = runs.some((run) => run.plan.spots.some((spot) => spot.node.kind === 'stop'))
  return [
    ...procedure.zones.flatMap((zone, number): readonly ProvedProperty[] => {
      const states = zone.safeWhen.map((claim) => claim.state)
      if (broken(ZONE_FAULTS, (subject) => subject.startsWith(`${zone.id}/`) || states.includes(subject))) return []
      const safe = zone.safeWhen.map((claim) => `${claim.state} is ${claim.values.join(' or ')}`)
      return [
        {
          kind: 'zone',
          says: `Nobody is in ${zone.id} (${zone.what}) unless ${safe.join(', ')}.`,
          subject: zone.id,
          steps: seenIn(runs, number),
          provedAt: provedAt(states.filter((id) => procedure.states.find((state) => state.id === id)?.provedBy.length)),
        },
      ]
    }),
    ...procedure.never.flatMap((ban): readonly ProvedProperty[] => {
      const states = ban.when.map((claim) => claim.state)
      const id = [...states].sort().join('+')
      if (broken(['forbidden-together'], (subject) => subject === id)) return []
      const says = ban.when.map((claim) => `${claim.state} ${claim.values.join(' or ')}`).join(' and ')
      return [{ kind: 'never', says: `At no moment ${says}.`, subject: id, steps: changing(states), provedAt: [] }]
    }),
    ...held.flatMap((state): readonly ProvedProperty[] =>
      broken(['unheld'], (subject) => subject === state.id)
        ? []
        : [
            {
              kind: 'held',
              says: `Something holds ${state.id} at every moment.`,
              subject: state.id,
              steps: changing([state.id, ...state.heldBy.flat().map((claim) => claim.state)]),
              provedAt: [],
            },
          ],
    ),
    ...putBack.flatMap((state): readonly ProvedProperty[] =>
      broken(['not-put-back', 'left-snug'], (subject) => subject === state.id)
        ? []
        : [
            {
              kind: 'put-back',
              says: `On every way to the end, ${state.id} is ${state.end.join(' or ')}.`,
              subject: state.id,
              steps: changing([state.id]),
              provedAt: [],
            },
          ],
    ),
    ...locks.flatMap((state): readonly ProvedProperty[] =>
      broken(['lock-unpaired', 'lockout-order'], (subject) => subject === state.id)
        ? []
        : [
            {
              kind: 'lock',
              says: `Everyone who locks ${state.id} takes his own lock off again, in the right order.`,
              subject: state.id,
              steps: numbers(
                steps.filter((step) => [...step.locks, ...step.unlocks].some((thing) => thing.id === state.name)),
              ),
              provedAt: [],
            },
          ],
    ),
    ...spans(procedure, broken),
    ...(stops && !broken(['stop-unsafe'], () => true)
      ? [
          {
            kind: 'stop' as const,
            says: 'Wherever the job stops, what is not safe is named.',
            subject: 'stop',
            steps: [],
            provedAt: [],
          },
        ]
      : []),
    ...(runs.some((run) => run.plan.readings.tracked.length > 0) &&
    !broken(['reading-missing', 'reading-stale'], () => true)
      ? [
          {
            kind: 'readings' as const,
            says: 'Every decision and formula looks only at readings that were taken and still count.',
            subject: 'readings',
            steps: [],
            provedAt: [],
          },
        ]
      : []),
  ]
}

const ZONE_FAULTS: readonly FlowFault['fault'][] = [
  'zone-unsafe',
  'zone-not-cleared',
  'proof-missing',
  'proof-stale',
  'proof-bypassed',
  'proof-lapsed',
  'signer-not-independent',
  'resume-unproved',
]

function spans(
  procedure: Procedure,
  broken: (names: readonly FlowFault['fault'][], subject: (subject: string) => boolean) => boolean,
): readonly ProvedProperty[] {
  return procedure.phases.flatMap((phase) =>
    [...phase.keeps, ...withSubSteps(phase.steps).flatMap((step) => step.keeps)].flatMap(
      (keep): readonly ProvedProperty[] => {
        const states = keep.states.map((claim) => claim.state)
        if (states.length === 0 || broken(['span-broken'], (subject) => states.includes(subject))) return []
        const says = keep.states.map((claim) => `${claim.state} stays ${claim.values.join(' or ')}`).join(', ')
        return [
          {
            kind: 'span',
            says: `While "${keep.name}" lasts (${phase.title}), ${says}.`,
            subject: keep.name,
            steps: numbers(phase.steps),
            provedAt: [],
          },
        ]
      },
    ),
  )
}

function seenIn(runs: readonly Run[], zone: number): readonly string[] {
  const found = runs.flatMap((run) => {
    const zones = run.plan.subjects.safeWhen.length
    return run.plan.spots.flatMap((spot) =>
      spot.job && run.seenIn[spot.number * zones + zone] === 1 ? [spot.job.step.number] : [],
    )
  })
  return [...new Set(found)]
}

function numbers(steps: readonly { readonly number: string }[]): readonly string[] {
  return [...new Set(steps.map((step) => step.number))]
}

/** What stands beside every proof. */
export function notModelled(procedure: Procedure): readonly string[] {
  const dismissed = procedure.machine?.energies.flatMap((energy) =>
    energy.state === null && energy.because !== null ? [`${energy.id} of the machine: ${energy.because}`] : [],
  )
  const forgotten = procedure.machine?.energies.flatMap((energy) =>
    energy.state === null && energy.because === null ? [`${energy.id} of the machine: no state stands for it.`] : [],
  )
  return [
    'Whether people do as they are told.',
    'Gear and parts that break.',
    'Loads, strengths and figures; other checks look at them.',
    'Time, but for the waits that are written.',
    'What anyone does in an emergency.',
    'People other than those named as roles.',
    'Whatever no state, zone or role stands for.',
    ...(dismissed ?? []),
    ...(forgotten ?? []),
  ]
}
