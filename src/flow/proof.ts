import type { Place } from '../text/place.ts'

/** Faults that a way through the procedure can show; each is a check of `src/checks/flow` of the same name. */
export type FlowFaultName =
  | 'zone-unsafe'
  | 'zone-not-cleared'
  | 'need-unmet'
  | 'proof-missing'
  | 'proof-stale'
  | 'proof-bypassed'
  | 'proof-lapsed'
  | 'signer-not-independent'
  | 'unheld'
  | 'forbidden-together'
  | 'not-put-back'
  | 'left-snug'
  | 'lock-unpaired'
  | 'lockout-order'
  | 'reading-missing'
  | 'reading-stale'
  | 'unreachable'
  | 'endless'
  | 'span-broken'
  | 'guard-off-at-start'
  | 'stop-unsafe'
  | 'resume-unproved'
  | 'exposed'
  | 'not-proved'

/** One place of a story: a step done, an answer given, a way taken. */
export interface StoryLine {
  /** Printed number of the step, `1.3`; empty for the start, a doorway or the end. */
  readonly number: string
  readonly position: string | null
  /** What happens there in the author's words: `Slacken the take-up`, `answer "no hoist on site"`. */
  readonly says: string
  /** What changed there that matters to this fault, in words: `power goes back live`. Empty where nothing did. */
  readonly changes: string
  readonly at: Place
}

/** A fault with the shortest way that shows it. */
export interface FlowFault {
  readonly fault: FlowFaultName
  /** What it is about, by id: `zone/state`, a state, a thing, a reading, a step; `never` joins its states with `+`. */
  readonly subject: string
  /** What to underline: the words of the author that make it so. */
  readonly at: Place
  /** Id of the step where it shows, or null for the document. */
  readonly step: string | null
  /** What goes wrong, in the author's names: `Fitter is under the belt, but power went back live at 2.2.` */
  readonly message: string
  /** The one change that would close it: `Prove power isolated again (hold, proves: { power: isolated }) between 2.2 and 2.4.` */
  readonly advice: string
  /** From the start to the step where it shows; only the places that matter for it, others counted. */
  readonly story: readonly StoryLine[]
  /** Places of the graph passed on the shortest way. */
  readonly length: number
  /** Numbers of other steps where the same fault shows. */
  readonly alsoAt: readonly string[]
  readonly related: readonly { readonly at: Place; readonly message: string }[]
}

/** What has been shown, for the step file and the audit. */
export interface FlowProof {
  /** `nothing-to-prove`: no zones and nothing else to look at; `not-proved`: a bound was hit; `faulty`: faults of severity error. */
  readonly verdict: 'proved' | 'faulty' | 'nothing-to-prove' | 'not-proved'
  /** Situations looked at, over all combinations of variants. */
  readonly situations: number
  readonly variants: number
  readonly faults: readonly FlowFault[]
  readonly properties: readonly ProvedProperty[]
  /** What stands beside every proof: what the model does not hold. */
  readonly notModelled: readonly string[]
}

/** One thing that holds on every way, and what carries it. */
export interface ProvedProperty {
  readonly kind: 'zone' | 'never' | 'held' | 'put-back' | 'lock' | 'span' | 'stop' | 'readings'
  /** `Nobody is under the axle unless power is isolated, …` */
  readonly says: string
  /** Id of the zone, state or thing. */
  readonly subject: string
  /** Printed numbers of the steps in which someone is exposed to it, or that change it. */
  readonly steps: readonly string[]
  /** Printed numbers of the steps whose proofs it rests on. */
  readonly provedAt: readonly string[]
}
