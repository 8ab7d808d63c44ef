import type { Procedure, Step, Whereabouts } from '../model/procedure.ts'
import type { Place } from '../text/place.ts'
import { doersOf, stepsBelow } from './every-step.ts'

/** Somebody is sent into a zone. */
export interface Entered {
  /** Zone id without its position. */
  readonly zone: string
  readonly roles: readonly string[]
  /** The first step that is done there. */
  readonly step: Step
  readonly at: Place
}

/** Where the text sends people: `where` and `enters` of phases and steps, `out` left out, each zone and set of roles once. */
export function zonesEntered(procedure: Procedure): readonly Entered[] {
  const entered: Entered[] = []
  const seen = new Set<string>()
  const note = (whereabouts: readonly Whereabouts[], acting: readonly string[], step: Step | undefined) => {
    for (const { role, zones, at } of whereabouts) {
      for (const id of zones) {
        const zone = id.split(/[.@]/)[0] ?? id
        const roles = role === null ? acting : [role]
        const key = `${zone} ${roles.join(' ')}`
        if (id === 'out' || step === undefined || seen.has(key)) continue
        seen.add(key)
        entered.push({ zone, roles, step, at })
      }
    }
  }
  for (const phase of procedure.phases) {
    const steps = stepsBelow(phase.steps)
    // Who acts where the phase says people are; steps that say where they are speak for themselves.
    const there = steps.filter(({ where, enters }) => where.length === 0 && enters.length === 0)
    note(phase.where, [...new Set(there.flatMap(doersOf))], there[0])
    for (const step of steps) note([...step.where, ...step.enters], doersOf(step), step)
  }
  return entered
}

/** Whether everybody is out when a step begins, as far as the text says where people are; null where it says nothing. */
export function isEveryoneOut(procedure: Procedure, step: Step): boolean | null {
  let last: readonly Whereabouts[] | null = null
  for (const phase of procedure.phases) {
    if (phase.where.length > 0) last = phase.where
    for (const one of stepsBelow(phase.steps)) {
      if (one.where.length > 0) last = one.where
      if (one.id === step.id)
        return last === null ? null : last.every(({ zones }) => zones.every((zone) => zone === 'out'))
    }
  }
  return null
}
