import type { Fault } from '../../findings/finding.ts'
import type { Phase, Procedure, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { stepsBelow } from '../every-step.ts'

/** What this site asks for beyond the language: whose signature stands before anybody meets an energy. */
export const requiredHoldMissing: Check = {
  name: 'holds/required-hold-missing',
  severity: 'error',
  title: 'People meet an energy without the hold that this site asks for.',
  rules: [],

  *run({ procedure, configuration }: CheckSubject): Iterable<Fault> {
    for (const [energy, roles] of configuration.requiredHolds ?? []) {
      for (const role of roles) {
        let signed = false
        const told = new Set<string>()
        for (const phase of procedure.phases) {
          signed ||= isSignedIn(procedure, phase, energy, role)
          const met = signed || told.has(phase.baseId) ? null : whereMet(procedure, phase, energy)
          if (met === null) continue
          told.add(phase.baseId)
          yield {
            at: phase.at,
            message: `Phase ${phase.number} "${phase.title}" brings people to ${energy} energy (${met}), and the ${role} has signed nothing until then. This site asks for it.`,
            advice: `Have the ${role} sign first: hold: { ${role}: I saw … }, at a step that proves the state or in this phase.`,
          }
        }
      }
    }
  },
}

/** A hold by the role in this phase, where it proves a state of the energy or the phase itself meets it. */
function isSignedIn(procedure: Procedure, phase: Phase, energy: string, role: string): boolean {
  const signed = stepsBelow(phase.steps).filter((step) =>
    step.holds.some((hold) => hold.role === role && hold.kind !== 'witness' && hold.kind !== 'review'),
  )
  if (signed.length === 0) return false
  return signed.some((step) => provesOf(procedure, step, energy)) || whereMet(procedure, phase, energy) !== null
}

function provesOf({ states }: Procedure, step: Step, energy: string): boolean {
  return step.proves.some((claim) => states.some((state) => state.id === claim.state && state.energy === energy))
}

/** The zone or the hazard through which people of a phase meet the energy, or null. */
function whereMet({ zones, states, hazards }: Procedure, phase: Phase, energy: string): string | null {
  const steps = stepsBelow(phase.steps)
  const entered = new Set(
    [phase, ...steps].flatMap((part) => [
      ...part.where.flatMap((place) => place.zones),
      ...('enters' in part ? part.enters.flatMap((place) => place.zones) : []),
      ...part.exposed.flatMap((one) => one.zones),
    ]),
  )
  const rests = (state: string) => states.some((one) => one.id === state && one.energy === energy)
  const zone = zones.find(
    ({ id, name, safeWhen }) => (entered.has(id) || entered.has(name)) && safeWhen.some((claim) => rests(claim.state)),
  )
  if (zone !== undefined) return zone.what
  const named = new Set([...phase.hazards, ...steps.flatMap((step) => step.hazards)])
  return hazards.find(({ id, energyClass }) => named.has(id) && energyClass === energy)?.hazard ?? null
}
