import type { Fault } from '../../findings/finding.ts'
import type { Phase, Procedure, Step } from '../../model/procedure.ts'
import { minutesIn } from '../../model/schedule/times.ts'
import type { State } from '../../model/states.ts'
import { toNumber } from '../../trade/binary.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep, type StepInPhase } from '../every-step.ts'

/** A proof that holds for four hours does not carry a job of six. Long waits are told by flow/proof-lapsed; this is the work itself. */
export const lapsesBeforeDone: Check = {
  name: 'schedule/lapses-before-done',
  severity: 'advice',
  title: 'A proof lapses before the work that rests on it begins, going by the times of the steps.',
  rules: [],

  *run({ procedure, flow }: CheckSubject): Iterable<Fault> {
    const { schedule } = procedure
    if (schedule === null) return
    const times = new Map(schedule.phases.map((phase) => [phase.phase, phase]))
    const steps = everyStep(procedure).filter(({ phase }) => times.get(phase.id)?.isOnTheWay)
    const told = new Set(
      (flow?.faults ?? []).flatMap(({ fault, subject }) => (fault === 'proof-lapsed' ? subject.split('/') : [])),
    )
    for (const state of procedure.states) {
      const lapses = state.lapses === null ? null : minutesIn(state.lapses)
      if (lapses === null || told.has(state.id)) continue
      for (const { proof, last } of spansOf(state, steps, procedure)) {
        const [from, to] = [times.get(proof.phase.id), times.get(last.phase.id)]
        const gap = from && to ? to.start - from.finish : 0
        if (gap <= toNumber(lapses)) continue
        yield {
          at: state.at,
          message: `The proof of "${state.name}" lapses after ${state.lapses}. It is taken in step ${proof.step.number}, and step ${last.step.number} still rests on it about ${hours(gap)} later.`,
          advice: `Prove it again between them, or correct the times (takes) of the phases.`,
          related: [{ at: proof.step.at, message: 'It is proved here.' }],
        }
      }
    }
  },
}

interface Span {
  readonly proof: StepInPhase
  /** The last step that rests on the proof before it is taken again or the state is changed. */
  readonly last: StepInPhase
}

function spansOf(state: State, steps: readonly StepInPhase[], procedure: Procedure): readonly Span[] {
  const zones = new Set(
    procedure.zones.flatMap((zone) => (zone.safeWhen.some((claim) => claim.state === state.id) ? [zone.id] : [])),
  )
  const spans: Span[] = []
  let proof: StepInPhase | null = null
  let last: StepInPhase | null = null
  const close = () => {
    if (proof && last) spans.push({ proof, last })
    proof = null
    last = null
  }
  for (const here of steps) {
    const { step, phase } = here
    if (step.sets.some((change) => change.state === state.id)) close()
    if (step.proves.some((claim) => claim.state === state.id)) {
      close()
      proof = here
    } else if (proof && restsOn(state, step, phase, zones)) last = here
  }
  close()
  return spans
}

function restsOn(state: State, step: Step, phase: Phase, zones: ReadonlySet<string>): boolean {
  if (step.needs.some((claim) => claim.state === state.id)) return true
  const where = step.where.length > 0 ? step.where : phase.where
  return [...where, ...step.enters].some((whereabouts) => whereabouts.zones.some((zone) => zones.has(zone)))
}

function hours(minutes: number): string {
  return minutes < 120 ? `${Math.round(minutes)} min` : `${Math.round(minutes / 6) / 10} h`
}
