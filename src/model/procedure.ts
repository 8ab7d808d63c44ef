import type { Inline, Prose } from '../syntax/prose.ts'
import type { Place } from '../text/place.ts'
import type { Entry, LookUpTable, NamedSentence, NamedText } from './entries.ts'
import type { Graph } from './graph.ts'
import type { Consequence, Decide, Target } from './outcomes.ts'
import type { Reading, Torque } from './readings.ts'
import type { Resources } from './resources.ts'
import type { Schedule } from './schedule/schedule.ts'
import type { Change, Claim, NeverTogether, State, StateValues, Zone } from './states.ts'
import type { Only, Variant } from './variants.ts'
import type { Working } from './working.ts'

/**
 * The resolved procedure: fragments included, repeats expanded, refits written out, steps numbered, limits worked out.
 * Every part that an author wrote carries the place it came from (`at`); the step file is this without the places.
 */
export interface Procedure {
  readonly file: string
  readonly document: DocumentInfo
  readonly purpose: readonly Prose[]
  readonly roles: readonly Role[]
  readonly machine: Machine | null
  readonly states: readonly State[]
  readonly zones: readonly Zone[]
  readonly never: readonly NeverTogether[]
  readonly hazards: readonly Hazard[]
  readonly resources: Resources
  readonly tables: readonly LookUpTable[]
  /** What anyone does at any time, by name (`fire`: sentence). */
  readonly emergency: readonly NamedSentence[]
  /** What no one does in this job. */
  readonly prohibit: readonly string[]
  /** Every key of the document block, in the order written. */
  readonly entries: readonly Entry[]
  /** In the order of the print: each phase, then its branches; a repeated phase once for each position. */
  readonly phases: readonly Phase[]
  readonly holds: readonly HoldSummary[]
  /** Null where no step and no phase says how long it takes. */
  readonly schedule: Schedule | null
  readonly figures: readonly Figure[]
  readonly graph: Graph
  readonly accepted: readonly Acceptance[]
}

export interface DocumentInfo {
  readonly number: string
  readonly title: string
  readonly revision: string
  readonly status: 'draft' | 'for-review' | 'issued' | 'withdrawn'
  /** ISO 8601, `2026-03-02`. */
  readonly date: string
  readonly site: string | null
  readonly author: string | null
  readonly supersedes: string | null
  readonly reviewBy: string | null
  /** BCP 47; `en` unless the library says otherwise. */
  readonly language: string
  readonly printUnits: readonly ('metric' | 'inch')[]
  readonly variants: readonly Variant[]
  readonly approvals: readonly Approval[]
  readonly at: Place
}

export interface Approval {
  readonly role: string
  readonly name: string | null
  readonly date: string | null
}

export interface Role {
  readonly id: string
  readonly who: string
  readonly qualifications: readonly string[]
  readonly differentFrom: readonly string[]
  readonly at: Place
}

/** A machine file of `shared/machines/`. */
export interface Machine {
  readonly id: string
  readonly name: string
  readonly serials: readonly string[]
  readonly energies: readonly MachineEnergy[]
  readonly isolationPoints: readonly IsolationPoint[]
  readonly masses: readonly NamedText[]
  readonly notes: string | null
}

export interface MachineEnergy {
  readonly id: string
  readonly kind: string
  readonly magnitude: string | null
  /** The state of this procedure that stands for it; null where it was dismissed with `because`. */
  readonly state: string | null
  readonly because: string | null
}

export interface IsolationPoint {
  readonly id: string
  readonly what: string
  readonly where: string | null
  readonly energy: string | null
}

export type SignalWord = 'danger' | 'warning' | 'caution' | 'notice'

export interface Hazard {
  readonly id: string
  readonly hazard: string
  readonly consequence: string
  readonly avoid: string
  readonly severity: string
  readonly likelihood: string
  /** Worked out from severity and likelihood (definitions of ANSI Z535.6). */
  readonly signalWord: SignalWord
  readonly energyClass: string | null
  readonly controls: readonly string[]
  readonly at: Place
}

/** Which pass of a repeated phase this is. */
export interface Position {
  /** In large letters on the page: `LEFT`, `cylinder 3`. */
  readonly label: string
  readonly values: readonly NamedText[]
}

export interface Phase {
  /** `wheel-off@left`; without the `@…` where nothing repeats. */
  readonly id: string
  readonly baseId: string
  /** `3` for a phase, `5A` for the first branch of phase 5. Both positions of a repeat share it. */
  readonly number: string
  readonly title: string
  readonly kind: 'phase' | 'branch'
  /** For a branch: the phase it belongs to. */
  readonly under: string | null
  readonly position: Position | null
  readonly until: Until | null
  readonly prose: readonly Prose[]
  readonly by: readonly string[]
  readonly where: readonly Whereabouts[]
  /** Zones that a headcount clears before its first step, and who counts. */
  readonly clear: readonly string[]
  readonly clearedBy: readonly string[]
  /** What each of its steps needs besides its own. */
  readonly needs: readonly Claim[]
  readonly exposed: readonly Exposed[]
  readonly keeps: readonly Keep[]
  readonly permits: readonly Permit[]
  readonly ppe: readonly string[]
  readonly hazards: readonly string[]
  readonly only: Only | null
  readonly when: string | null
  /** Its steps may be done at the same time by different people. */
  readonly together: boolean
  readonly takes: string | null
  readonly reverseOf: ReverseOf | null
  readonly entries: readonly Entry[]
  readonly steps: readonly Step[]
  readonly statesBefore: StateValues
  readonly statesAfter: StateValues
  readonly at: Place
}

/** Phases from `first` to the one that carries this are done again until the condition holds. */
export interface Until {
  /** Id of the first phase that is done again. */
  readonly first: string
  readonly condition: string
  /** Passes, the first included; null where the author gave no end. */
  readonly atMost: number | null
  readonly otherwise: Consequence | null
}

export interface Whereabouts {
  /** A role, or null for everyone acting. */
  readonly role: string | null
  /** Zone ids, or `out`. */
  readonly zones: readonly string[]
  readonly at: Place
}

/** Somebody is on purpose where it is not safe. */
export interface Exposed {
  readonly zones: readonly string[]
  readonly who: readonly string[]
  readonly because: string
  readonly controls: readonly string[]
  /** Who agrees to it before it starts: role and sentence. */
  readonly agreedBy: readonly NamedSentence[]
  readonly at: Place
}

/** What must hold from the beginning of its phase or step to the end of it, or of the step `through`. */
export interface Keep {
  readonly name: string
  readonly says: string | null
  readonly states: readonly Claim[]
  /** `min 3 m`, as typed. */
  readonly distance: string | null
  /** Who sees to it. */
  readonly by: readonly string[]
  /** How often it is looked at, as typed. */
  readonly every: string | null
  readonly through: Target | null
  readonly at: Place
}

/** A paper that must be open while the work is done. */
export interface Permit {
  readonly name: string
  /** Role that issues it. */
  readonly by: string | null
  /** Where it is valid; empty: wherever the work is. */
  readonly zones: readonly string[]
  readonly lapses: string | null
  readonly says: string | null
  readonly at: Place
}

/** A wait in minutes, exact: `p/q` or an integer. */
export interface Waiting {
  readonly earliest: string | null
  readonly latest: string | null
  /** The step it is counted from, as typed; null: from this one. */
  readonly after: string | null
}

export interface ReverseOf {
  readonly phases: readonly string[]
  /** Steps that change nothing and so have nothing to put back. */
  readonly dropped: readonly DroppedStep[]
}

export interface DroppedStep {
  readonly number: string
  readonly text: string
  readonly because: string
}

export interface Step {
  /** `deflate@left`, or `wheel-off/chalk-the-side@left` where the author gave no id. */
  readonly id: string
  /** The same in every position: `deflate`. */
  readonly baseId: string
  /** `3.1`; sub-steps `3.1a`. */
  readonly number: string
  readonly text: StepText
  /** Who does it: never empty where the document has roles. */
  readonly by: readonly string[]
  readonly acts: readonly Act[]
  readonly details: readonly Prose[]
  readonly where: readonly Whereabouts[]
  readonly enters: readonly Whereabouts[]
  readonly clear: readonly string[]
  /** Who counts heads and signs. */
  readonly clearedBy: readonly string[]
  readonly needs: readonly Claim[]
  readonly exposed: readonly Exposed[]
  readonly keeps: readonly Keep[]
  readonly permits: readonly Permit[]
  readonly sets: readonly Change[]
  readonly proves: readonly Claim[]
  /** Hazards whose message stands before this step: those named here, and those of the phase on its first step. */
  readonly hazards: readonly string[]
  readonly ppe: readonly string[]
  readonly uses: readonly string[]
  readonly only: Only | null
  readonly when: string | null
  readonly holds: readonly Hold[]
  readonly torques: readonly Torque[]
  readonly readings: readonly Reading[]
  readonly consequences: readonly Consequence[]
  readonly decide: Decide | null
  readonly waits: readonly string[]
  /** The same waits as times. */
  readonly waiting: readonly Waiting[]
  readonly takes: string | null
  readonly removes: readonly CountedThing[]
  readonly refits: readonly CountedThing[]
  readonly locks: readonly CountedThing[]
  readonly unlocks: readonly CountedThing[]
  readonly putsOn: readonly CountedThing[]
  readonly takesOff: readonly CountedThing[]
  /** New parts from `parts` that go in here. */
  readonly fits: readonly CountedThing[]
  readonly snug: readonly CountedThing[]
  /** Steps that are done again here (`redo`), in order. */
  readonly redoes: readonly Target[]
  /** Readings that no longer count after this step. */
  readonly spoils: readonly string[]
  /** How often the step may have to be done, for columns in print; 1 where nothing comes back to it. */
  readonly tries: number
  /** For a step of a refit written by `reverse`: the step it undoes. */
  readonly undoes: string | null
  /** Figures of this step that were worked out, with how. */
  readonly workings: readonly Working[]
  readonly entries: readonly Entry[]
  readonly steps: readonly Step[]
  readonly statesBefore: StateValues
  readonly statesAfter: StateValues
  readonly at: Place
}

export interface StepText {
  readonly markdown: string
  readonly plain: string
  readonly inlines: readonly Inline[]
}

/** One of several people acting at the same time in one step. */
export interface Act {
  readonly by: readonly string[]
  readonly text: StepText
  readonly at: Place
}

export interface CountedThing {
  readonly id: string
  /** As typed before the `×`; null means all of them. */
  readonly count: string | null
  readonly at: Place
}

export interface Hold {
  /** Unique in the document: `<step id>#supervisor`. */
  readonly id: string
  readonly kind: 'hold' | 'witness' | 'verify' | 'review'
  /** `before`: opens the step (`hold-before`); `after`: closes it. */
  readonly timing: 'before' | 'after'
  readonly role: string
  readonly says: string
  readonly at: Place
}

/** One hold of the document, with what rests on it. */
export interface HoldSummary {
  readonly hold: string
  readonly step: string
  readonly number: string
  readonly position: string | null
  readonly kind: Hold['kind']
  readonly role: string
  readonly says: string
  readonly proves: readonly Claim[]
  /** Zones that rest on a state it proves. */
  readonly zones: readonly string[]
  /** Hazards of the steps up to the next hold. */
  readonly hazards: readonly string[]
}

export interface Figure {
  /** Path relative to the library. */
  readonly file: string
  readonly alt: string
  readonly caption: string
  readonly mediaType: 'image/svg+xml' | 'image/png' | 'image/jpeg'
  /** SVG as text; PNG and JPEG in base64. */
  readonly content: string
}

/** A finding the author accepts by name. */
export interface Acceptance {
  readonly finding: string
  /** Step id, or null for the whole document. */
  readonly step: string | null
  readonly because: string
  readonly role: string
  readonly at: Place
}
