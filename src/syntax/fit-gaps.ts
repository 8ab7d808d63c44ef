import type { Place } from '../text/place.ts'

/**
 * Where something was taken out that has been reported already, so that what is missing now is not reported again.
 * Places are told apart by identity: a value keeps its place through every stage of the fit.
 */
export interface Gaps {
  /** Something went missing in the value at this place: the entry of that name, or nobody knows which. */
  readonly leave: (at: Place, key?: string) => void
  /** Whether one of these entries may be what went missing there; without names: whether anything did. */
  readonly explain: (at: Place, keys?: readonly string[]) => boolean
}

export function noGaps(): Gaps {
  const left = new Map<Place, Set<string>>()
  const anyKey = ''
  return {
    leave: (at, key = anyKey) => {
      left.set(at, (left.get(at) ?? new Set()).add(key))
    },
    explain: (at, keys) => {
      const names = left.get(at)
      if (names === undefined) return false
      return keys === undefined || names.has(anyKey) || keys.some((key) => names.has(key))
    },
  }
}
