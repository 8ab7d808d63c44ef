import type { Procedure } from '../model/procedure.ts'
import type { Resource } from '../model/resources.ts'
import { listIn, type NamedPart, namedParts } from './entry-data.ts'

/** A load on a hook, with the gear that carries it as far as it is listed. */
export interface Lift extends NamedPart {
  /** Names under `with`. */
  readonly gear: readonly string[]
  readonly listed: readonly Resource[]
  /** Legs of the sling; 1 where nothing is said, or not yet. */
  readonly legs: number
}

export function everyLift(procedure: Procedure): readonly Lift[] {
  return namedParts(procedure, 'lift').map((part) => {
    const gear = listIn(part.data, 'with')
    return {
      ...part,
      gear,
      listed: gear.flatMap((id) => procedure.resources.gear.filter((resource) => resource.id === id)),
      legs: wholeNumber(listIn(part.data, 'legs')[0]) ?? 1,
    }
  })
}

/** Slings and what is hooked into them; what drives the hook is no rigging. */
export function isRigging({ id, name }: { readonly id: string; readonly name: string }): boolean {
  const words = `${id} ${name}`
  return (
    /\b(?:slings?|chains?|shackles?|strops?|eyes?|eye-?bolts?|ropes?|hooks?|brackets?|beams?|clamps?)\b/i.test(words) &&
    !drives.test(words)
  )
}

const drives = /\b(?:crane|hoist|block|winch|jack|truck|loader|handler|lift)\b/i

function wholeNumber(typed = ''): number | null {
  return /^\d+$/.test(typed) ? Number(typed) : null
}
