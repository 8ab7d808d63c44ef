import type { EntryBlock, FigureBlock, Labelled, ProseBlock } from './sheet-parts.ts'
import type { OutLine, Panel, StepBlock } from './sheet-steps.ts'

/**
 * What the print templates are handed: plain JSON, laid out in words and blanks, nothing left to decide but where it stands
 * on the paper. Author's text is always a string here, never markup.
 */

export type Paper = 'a4' | 'letter'

export interface ChecklistSheet {
  readonly paper: Paper
  /** `DRAFT`, `FOR REVIEW`, `WITHDRAWN` where this paper must not be worked from: no sign-off fields then. */
  readonly notForUse: string | null
  /** Where each blank stands is told, so that fields can be laid over them. */
  readonly fillable: boolean
  /** Whether every step is measured before it is set; else only those that may be taller than a page. */
  readonly careful: boolean
  readonly heading: Heading
  readonly first: FirstPage
  readonly fetch: FetchPages
  readonly phases: readonly PhaseBlock[]
  readonly last: LastPage
}

export interface Heading {
  readonly documentNumber: string
  readonly revision: string
  readonly title: string
  readonly machine: string | null
  readonly language: string
  /** Year, month, day of the document; null where it is no date. */
  readonly date: readonly [number, number, number] | null
  readonly dateText: string
  readonly author: string | null
  readonly digest: string
  /** Words that the file itself carries: number, revision, digest, variant. */
  readonly keywords: readonly string[]
  /** `3f9a-12c7` */
  readonly digestShort: string
  readonly code: SquareCode
}

export interface SquareCode {
  /** What it says when read. */
  readonly says: string
  readonly svg: string
}

/** Something to tick, with the name of its blank. */
interface Ticked extends Labelled {
  readonly field: string
}

export interface FirstPage {
  readonly facts: readonly Labelled[]
  readonly serials: readonly string[]
  readonly positions: readonly string[]
  /** What they are called: `side`, or `position`. */
  readonly positionWord: string
  readonly variants: readonly {
    readonly name: string
    readonly values: readonly string[]
    /** One a value. */
    readonly fields: readonly string[]
  }[]
  /** Variants that this copy was printed for alone. */
  readonly chosen: readonly Labelled[]
  readonly emergency: readonly Labelled[]
  readonly canKill: readonly {
    readonly word: string | null
    readonly what: string
    readonly held: string
    readonly proved: string
    readonly signed: boolean
  }[]
  readonly moreHazards: number
  readonly holds: readonly HoldRow[]
  readonly locks: readonly string[]
  /** Longer than a page, so that what follows begins on what is left of the second. */
  readonly runsOver: boolean
  readonly signers: readonly { readonly role: string; readonly note: string; readonly field: string }[]
}

interface HoldRow {
  readonly label: string
  readonly word: string
  readonly says: string
  readonly at: string
  readonly step: string
  readonly position: string | null
  readonly role: string
}

export interface FetchPages {
  readonly purpose: readonly ProseBlock[]
  readonly groups: readonly { readonly title: string; readonly items: readonly FetchItem[] }[]
  readonly ppe: readonly string[]
  readonly startStates: readonly Ticked[]
  /** Energies that nobody can see until they are proved. */
  readonly unknownAtStart: readonly string[]
  readonly people: readonly Labelled[]
  readonly plan: readonly PlanBox[]
  readonly schedule: ScheduleBlock | null
  /** The way through the work, and how the equipment stands along the steps: in as many drawings as it takes. */
  readonly flow: readonly FigureBlock[]
  readonly states: readonly FigureBlock[]
  /** Steps and phases of other variants, where a copy is for one. */
  readonly leftOut: readonly LeftOut[]
  readonly zones: readonly Labelled[]
  readonly never: readonly string[]
  readonly prohibit: readonly string[]
  readonly notModelled: readonly string[]
  readonly facts: readonly Labelled[]
  readonly tables: readonly {
    readonly title: string
    readonly head: readonly string[]
    readonly rows: readonly (readonly string[])[]
  }[]
  readonly otherHazards: readonly Panel[]
  readonly entries: readonly EntryBlock[]
  readonly cautions: readonly string[]
  readonly accepted: readonly { readonly finding: string; readonly because: string; readonly role: string }[]
  readonly approvals: readonly { readonly role: string; readonly name: string; readonly date: string }[]
}

export interface ScheduleBlock {
  readonly head: string
  readonly lines: readonly string[]
  /** The bars of the phases; null where there is one phase only. */
  readonly chart: FigureBlock | null
}

export interface LeftOut {
  readonly number: string
  readonly text: string
  readonly because: string
}

export interface FetchItem {
  readonly field: string
  readonly name: string
  readonly facts: string
  readonly stock: string
  readonly blanks: 'instrument' | 'gear' | 'always' | 'on-condition' | 'lot' | 'plain'
}

export interface PlanBox {
  readonly number: string
  readonly title: string
  readonly position: string | null
  readonly takes: string | null
  readonly branch: boolean
  readonly decides: boolean
  readonly holds: readonly string[]
  readonly target: string
}

export interface NowItem {
  readonly name: string
  readonly value: string
  /** `H1` or `1.4`; null where nothing proved it. */
  readonly proof: string | null
  readonly group: 'here' | 'open' | 'other side' | 'as begun'
}

export interface PhaseBlock {
  readonly id: string
  readonly field: string
  readonly number: string
  readonly title: string
  readonly branch: boolean
  readonly position: string | null
  readonly newPage: boolean
  /** What this copy leaves out of it. */
  readonly leftOut: readonly LeftOut[]
  readonly marks: readonly Labelled[]
  readonly prose: readonly ProseBlock[]
  readonly entries: readonly EntryBlock[]
  readonly now: readonly NowItem[]
  readonly steps: readonly StepBlock[]
  readonly until: {
    readonly condition: string
    readonly tries: number
    /** Id of the phase that is begun again, and its name. */
    readonly target: string
    readonly from: string
    readonly lines: readonly OutLine[]
  } | null
  readonly dropped: readonly Labelled[]
  readonly stop: {
    readonly stays: readonly string[]
    /** Said where nothing stays. */
    readonly nothingOpen: string
    readonly provedAgain: readonly string[]
  } | null
}

export interface LastPage {
  /** What was shown of every way through the work before it was printed. */
  readonly proof: {
    readonly head: string
    readonly lines: readonly { readonly says: string; readonly restsOn: string }[]
    readonly beside: readonly string[]
  }
  readonly final: readonly Ticked[]
  readonly oldParts: readonly Labelled[]
}
