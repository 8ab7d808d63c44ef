import type { HoldSummary, Phase, Step } from '../procedure.ts'
import type { Zone } from '../states.ts'
import { allSteps } from './link-targets.ts'

/** Every hold in the order of the work, with the zones that rest on what it proves and the hazards up to the next one. */
export function summariseHolds(phases: readonly Phase[], zones: readonly Zone[]): readonly HoldSummary[] {
  const summaries: HoldSummary[] = []
  const order = phases.flatMap((phase) => allSteps(phase.steps).map((step) => ({ phase, step })))
  for (const [index, { phase, step }] of order.entries()) {
    if (step.holds.length === 0) continue
    const following = order.slice(index + 1)
    const next = following.findIndex((later) => later.step.holds.length > 0)
    const guarded = (next < 0 ? following : following.slice(0, next + 1)).map((later) => later.step)
    for (const hold of step.holds) {
      summaries.push({
        hold: hold.id,
        step: step.id,
        number: step.number,
        position: phase.position?.label ?? null,
        kind: hold.kind,
        role: hold.role,
        says: hold.says,
        proves: step.proves,
        zones: zonesResting(step, zones),
        hazards: [...new Set(guarded.flatMap((later) => later.hazards))],
      })
    }
  }
  return summaries
}

function zonesResting(step: Step, zones: readonly Zone[]): readonly string[] {
  const proved = new Set(step.proves.map((claim) => claim.state))
  return zones.filter((zone) => zone.safeWhen.some((claim) => proved.has(claim.state))).map((zone) => zone.id)
}
