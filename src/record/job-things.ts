import { inWords } from '../wording/state-text.ts'
import type { PhaseSheet, StepSheet, TorqueSheet } from '../wording/step-file-parts.ts'
import type { JobThing, JobTick } from './job.ts'

export interface ThingTick {
  readonly id: string
  readonly verb: string
  readonly thing: string
  readonly count: string | null
}

interface Verb {
  readonly verb: string
  /** What the open thing is called; null where nothing stays open. */
  readonly group: string | null
  readonly does: JobThing['does']
}

const verbs = {
  removes: { verb: 'Off', group: 'off', does: 'opens' },
  refits: { verb: 'Back on', group: 'off', does: 'closes' },
  locks: { verb: 'Lock on', group: 'lock', does: 'opens' },
  unlocks: { verb: 'Lock off', group: 'lock', does: 'closes' },
  putsOn: { verb: 'Put on', group: 'on', does: 'opens' },
  takesOff: { verb: 'Take off', group: 'on', does: 'closes' },
  fits: { verb: 'Fit new', group: null, does: 'closes' },
  snug: { verb: 'Snug', group: 'snug', does: 'opens' },
} as const satisfies { readonly [field: string]: Verb }

/** How a thing that is still open is called. */
const openWords = { off: 'Off', lock: 'Lock on', on: 'On', snug: 'Only snug' } as const

/** A tick for each thing taken off, put back, locked or unlocked. */
export function thingTicks(step: StepSheet): readonly ThingTick[] {
  return Object.entries(verbs).flatMap(([field, { verb }]) =>
    step[field as keyof typeof verbs].map(({ id, count }) => ({
      id: `thing:${step.id}:${verb}:${id}`,
      verb,
      thing: id,
      count,
    })),
  )
}

export function passTick(step: StepSheet, torque: TorqueSheet, pass: number): string {
  return `pass:${partId(step, torque.id)}:${pass + 1}`
}

/** A reading or torque on this page: its own id, told apart from that of the same step in another position. */
export function partId(step: StepSheet, part: string): string {
  return part.startsWith(step.id) ? part : `${step.id}#${part}`
}

/** A tick for each pass of each torque, and for each thing. `nameOf` gives the name of a tool or part. */
export function stepTicks(phase: PhaseSheet, step: StepSheet, nameOf: (id: string) => string): readonly JobTick[] {
  const position = phase.position?.values[0]?.text ?? null
  const keyOf = (group: string, thing: string): string => `${group}:${thing}${position === null ? '' : `@${position}`}`
  const passes = step.torques.flatMap((torque) =>
    torque.passes.map((_, index) => ({
      id: passTick(step, torque, index),
      says: `${inWords(torque.name)} ${torque.passes[index]?.text ?? ''}`.trim(),
      only: torque.only,
      thing:
        index < torque.passes.length - 1
          ? null
          : thing({ group: 'snug', does: 'closes' }, torque.name, null, keyOf, nameOf, position),
    })),
  )
  const things = Object.entries(verbs).flatMap(([field, verb]) =>
    step[field as keyof typeof verbs].map(({ id, count }) => ({
      id: `thing:${step.id}:${verb.verb}:${id}`,
      says: `${verb.verb}: ${nameOf(id)}`,
      only: null,
      thing: thing(verb, id, count, keyOf, nameOf, position),
    })),
  )
  return [...passes, ...things]
}

function thing(
  { group, does }: Pick<Verb, 'group' | 'does'>,
  id: string,
  count: string | null,
  keyOf: (group: string, thing: string) => string,
  nameOf: (id: string) => string,
  position: string | null,
): JobThing | null {
  if (group === null) return null
  const number = count === null || !/^\d+$/.test(count) ? null : Number(count)
  const where = position === null ? '' : `, ${inWords(position)}`
  const word = openWords[group as keyof typeof openWords]
  return {
    key: keyOf(group, id),
    does,
    isLock: group === 'lock',
    count: number,
    says: `${word}: ${nameOf(id)}${where}`,
  }
}
