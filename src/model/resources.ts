import type { Place } from '../text/place.ts'
import type { NamedText } from './entries.ts'

export type ResourceGroup = 'tools' | 'gear' | 'parts' | 'consumables' | 'ppe'

/** Everything to fetch, rolled up. */
export type Resources = { readonly [group in ResourceGroup]: readonly Resource[] }

export interface Resource {
  readonly id: string
  readonly name: string
  /** Part or stock number, exactly as typed. */
  readonly number: string | null
  readonly quantity: string | null
  /** `always` or `on-condition`, for parts. */
  readonly replace: string | null
  /** Range, resolution, accuracy, capacity and whatever else the author or the catalogue said. */
  readonly facts: readonly NamedText[]
  readonly isInstrument: boolean
  readonly usedIn: readonly ResourceUse[]
  readonly listed: boolean
  readonly at: Place
}

export interface ResourceUse {
  readonly phase: string
  readonly step: string | null
}
