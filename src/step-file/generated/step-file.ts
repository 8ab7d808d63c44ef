// Written by src/build/write-step-file-types.mjs from schema/step-file.schema.json. Do not edit: change the schema.

/**
 * A paragraph-like piece of prose.
 */
export type Prose =
  | {
      kind: 'paragraph'
      children: Inline[]
    }
  | {
      kind: 'list'
      ordered: boolean
      items: Prose[][]
    }
  | {
      kind: 'table'
      head: Inline[][]
      rows: Inline[][][]
    }
  | {
      kind: 'quote'
      children: Prose[]
    }
  | {
      kind: 'figure'
      /**
       * Path from the library's root.
       */
      file: string
      alt: string
      caption: string
    }
/**
 * A run of text inside a paragraph.
 */
export type Inline =
  | {
      kind: 'text'
      text: string
    }
  | {
      kind: 'code'
      text: string
    }
  | {
      kind: 'break'
    }
  | {
      kind: 'strong'
      children: Inline[]
    }
  | {
      kind: 'emphasis'
      children: Inline[]
    }
  | {
      kind: 'link'
      address: string
      children: Inline[]
    }
  | {
      kind: 'reference'
      /**
       * Id of a step or phase.
       */
      to: string
      /**
       * Its printed number.
       */
      text: string
      children: Inline[]
    }
  | {
      kind: 'value'
      name: string
      /**
       * The value in every printed unit.
       */
      text: string
    }
/**
 * Long form of a block's value; every scalar as typed.
 */
export type PlainValue =
  | string
  | PlainValue[]
  | {
      [k: string]: PlainValue
    }

/**
 * A procedure, machine-readable and resolved. Every other output is made from this alone. Consumers refuse a formatVersion they do not know.
 */
export interface StepFile {
  format: 'witnessmark-step-file'
  formatVersion: '1.0'
  /**
   * SHA-256 over the RFC 8785 form of everything but this field.
   */
  digest: string
  /**
   * The procedure's path in its library.
   */
  file: string
  document: DocumentInfo
  purpose: Prose[]
  roles: Role[]
  machine: Machine | null
  states: State[]
  zones: Zone[]
  never: NeverTogether[]
  hazards: Hazard[]
  resources: {
    tools: Resource[]
    gear: Resource[]
    parts: Resource[]
    consumables: Resource[]
    ppe: Resource[]
  }
  tables: LookUpTable[]
  /**
   * What anyone does at any time.
   */
  emergency: NamedSentence[]
  /**
   * Items: What no one does in this job.
   */
  prohibit: string[]
  /**
   * Every key of the document's block.
   */
  entries: Entry[]
  /**
   * In the order of the work: each phase, then its branches.
   */
  phases: Phase[]
  holds: HoldSummary[]
  /**
   * Null where no step and no phase says how long it takes.
   */
  schedule: Schedule | null
  figures: Figure[]
  graph: Graph
  proof: Proof
  accepted: AcceptedFinding[]
  /**
   * Warnings and advice that stood when this was built.
   */
  findings: StandingFinding[]
  /**
   * Items: What every output says where people can be hurt.
   */
  cautions: string[]
}
/**
 * Who this document is.
 */
export interface DocumentInfo {
  /**
   * Document number.
   */
  number: string
  title: string
  revision: string
  status: 'draft' | 'for-review' | 'issued' | 'withdrawn'
  /**
   * ISO 8601 date of this revision.
   */
  date: string
  site: string | null
  author: string | null
  /**
   * Revision or number that this one replaces.
   */
  supersedes: string | null
  /**
   * ISO 8601 date by which it is to be reviewed.
   */
  reviewBy: string | null
  /**
   * BCP 47.
   */
  language: string
  /**
   * Unit families to print, the first one first.
   *
   * @minItems 1
   */
  printUnits: ['metric' | 'inch', ...('metric' | 'inch')[]]
  variants: Variant[]
  approvals: Approval[]
}
/**
 * A choice that is made once for the machine at hand.
 */
export interface Variant {
  name: string
  values: string[]
}
export interface Approval {
  role: string
  name: string | null
  date: string | null
}
export interface Role {
  id: string
  who: string
  qualifications: string[]
  /**
   * Items: Role that must be another person.
   */
  differentFrom: string[]
}
/**
 * The machine file that the document names.
 */
export interface Machine {
  id: string
  name: string
  serials: string[]
  energies: MachineEnergy[]
  isolationPoints: IsolationPoint[]
  masses: NamedText[]
  notes: string | null
}
export interface MachineEnergy {
  id: string
  kind: string
  magnitude: string | null
  /**
   * State of this procedure that stands for it.
   */
  state: string | null
  /**
   * Why the document does without it.
   */
  because: string | null
}
export interface IsolationPoint {
  id: string
  what: string
  where: string | null
  energy: string | null
}
export interface NamedText {
  name: string
  text: string
}
/**
 * Something about the equipment that the work changes.
 */
export interface State {
  /**
   * `hub`, or `hub.left` where there is one a position.
   */
  id: string
  name: string
  position: string | null
  values: string[]
  start: string
  /**
   * @minItems 1
   *
   * Items: Value it may have when the work is done.
   */
  end: [string, ...string[]]
  energy: string | null
  /**
   * Items: Value in which it cannot hurt anyone.
   */
  safe: string[]
  /**
   * Items: Role, `reading` or `test`.
   */
  provedBy: string[]
  lapses: string | null
  /**
   * Alternatives, one of which must hold at every moment.
   */
  heldBy: Claim[][]
  /**
   * Made by a key such as `removes` or `locks` rather than declared.
   */
  implied: boolean
}
/**
 * The state has one of the values.
 */
export interface Claim {
  state: string
  values: string[]
}
/**
 * A place that is only safe in certain states.
 */
export interface Zone {
  id: string
  name: string
  position: string | null
  what: string
  safeWhen: Claim[]
  /**
   * Role that must admit people.
   */
  entry: string | null
}
export interface NeverTogether {
  when: Claim[]
  because: string
}
export interface Hazard {
  id: string
  hazard: string
  consequence: string
  avoid: string
  severity: string
  likelihood: string
  /**
   * Worked out from severity and likelihood by the definitions of ANSI Z535.6.
   */
  signalWord: 'danger' | 'warning' | 'caution' | 'notice'
  energyClass: string | null
  controls: string[]
}
export interface Resource {
  id: string
  name: string
  /**
   * Part or stock number, exactly as typed.
   */
  number: string | null
  quantity: string | null
  /**
   * `always` or `on-condition`.
   */
  replace: string | null
  facts: NamedText[]
  isInstrument: boolean
  usedIn: ResourceUse[]
  /**
   * Whether the author listed it; false where it is only used.
   */
  listed: boolean
}
export interface ResourceUse {
  phase: string
  step: string | null
}
export interface LookUpTable {
  id: string
  columns: string[]
  rows: string[][]
}
export interface NamedSentence {
  name: string
  says: string
}
/**
 * One key of a block as the author meant it, whatever it is.
 */
export interface Entry {
  key: string
  /**
   * Heading in print.
   */
  label: string
  lines: EntryLine[]
  data: PlainValue
}
export interface EntryLine {
  name: string | null
  text: string
}
/**
 * One pass through one phase or branch.
 */
export interface Phase {
  /**
   * `wheel-off@left`.
   */
  id: string
  /**
   * The same in every position.
   */
  baseId: string
  /**
   * `3`, or `5A` for a branch.
   */
  number: string
  title: string
  kind: 'phase' | 'branch'
  /**
   * For a branch, the phase it belongs to.
   */
  under: string | null
  position: Position | null
  until: Until | null
  prose: Prose[]
  by: string[]
  where: Whereabouts[]
  /**
   * Items: Zone that a headcount clears before the first step.
   */
  clear: string[]
  /**
   * Items: Role that counts heads.
   */
  clearedBy: string[]
  /**
   * What each of its steps needs besides its own.
   */
  needs: Claim[]
  exposed: Exposed[]
  keeps: Keep[]
  permits: Permit[]
  ppe: string[]
  hazards: string[]
  only: Only | null
  /**
   * Condition as typed; else the phase is passed by.
   */
  when: string | null
  /**
   * Its steps may be done at the same time by different people.
   */
  together: boolean
  takes: string | null
  reverseOf: ReverseOf | null
  entries: Entry[]
  steps: Step[]
  statesBefore: StateValues
  statesAfter: StateValues
}
/**
 * Which pass of a repeat this is.
 */
export interface Position {
  /**
   * Shown in large letters.
   */
  label: string
  values: NamedText[]
}
export interface Until {
  /**
   * Id of the first phase that is done again.
   */
  first: string
  condition: string
  /**
   * Passes, the first included.
   */
  atMost: number | null
  otherwise: Consequence | null
}
/**
 * What follows out of limit.
 */
export interface Consequence {
  on: 'out' | 'low' | 'high'
  reading: string | null
  action: 'continue' | 'go' | 'redo' | 'stop'
  targets: Target[]
  atMost: number | null
  then: Consequence | null
  reason: string | null
  leave: Claim[]
}
export interface Target {
  id: string
  /**
   * As printed.
   */
  number: string
}
export interface Whereabouts {
  /**
   * Null: everyone acting.
   */
  role: string | null
  /**
   * Items: Zone id, or `out`.
   */
  zones: string[]
}
/**
 * Somebody is on purpose where it is not safe.
 */
export interface Exposed {
  /**
   * Items: Zone.
   */
  zones: string[]
  /**
   * Items: Role.
   */
  who: string[]
  because: string
  /**
   * Items: What keeps them from harm.
   */
  controls: string[]
  /**
   * Role and what it confirms before it starts.
   */
  agreedBy: NamedSentence[]
}
/**
 * What must hold from the beginning of its phase or step to the end of it, or of the step `through`.
 */
export interface Keep {
  name: string
  says: string | null
  states: Claim[]
  /**
   * As typed.
   */
  distance: string | null
  /**
   * Items: Role that sees to it.
   */
  by: string[]
  /**
   * How often it is looked at, as typed.
   */
  every: string | null
  through: Target | null
}
/**
 * A paper that must be open while the work is done.
 */
export interface Permit {
  name: string
  /**
   * Role that issues it.
   */
  by: string | null
  /**
   * Items: Zone in which it is valid.
   */
  zones: string[]
  lapses: string | null
  says: string | null
}
/**
 * Only for these values of the variant.
 */
export interface Only {
  variant: string
  values: string[]
}
/**
 * For a refit that was written out by `reverse`.
 */
export interface ReverseOf {
  phases: string[]
  dropped: DroppedStep[]
}
export interface DroppedStep {
  number: string
  text: string
  because: string
}
/**
 * One instruction.
 */
export interface Step {
  id: string
  baseId: string
  /**
   * As printed: `3.1`, `3.1a`.
   */
  number: string
  text: StepText
  /**
   * Items: Role.
   */
  by: string[]
  /**
   * People acting at the same time.
   */
  acts: Act[]
  details: Prose[]
  where: Whereabouts[]
  enters: Whereabouts[]
  /**
   * Items: Zone that a headcount clears.
   */
  clear: string[]
  /**
   * Items: Role that counts heads.
   */
  clearedBy: string[]
  needs: Claim[]
  exposed: Exposed[]
  keeps: Keep[]
  permits: Permit[]
  sets: Change[]
  proves: Claim[]
  /**
   * Items: Hazard whose message stands before this step.
   */
  hazards: string[]
  ppe: string[]
  uses: string[]
  only: Only | null
  when: string | null
  holds: Hold[]
  torques: Torque[]
  readings: Reading[]
  consequences: Consequence[]
  decide: Decide | null
  waits: string[]
  /**
   * The same waits as times.
   */
  waiting: Waiting[]
  takes: string | null
  removes: CountedThing[]
  refits: CountedThing[]
  locks: CountedThing[]
  unlocks: CountedThing[]
  putsOn: CountedThing[]
  takesOff: CountedThing[]
  fits: CountedThing[]
  snug: CountedThing[]
  redoes: Target[]
  /**
   * Items: Reading that no longer counts.
   */
  spoils: string[]
  /**
   * How often it may have to be done.
   */
  tries: number
  /**
   * Step that this step of a refit undoes.
   */
  undoes: string | null
  workings: Working[]
  /**
   * Every key of the step's block.
   */
  entries: Entry[]
  /**
   * Sub-steps.
   */
  steps: Step[]
  statesBefore: StateValues
  statesAfter: StateValues
}
export interface StepText {
  markdown: string
  plain: string
  inlines: Inline[]
}
export interface Act {
  by: string[]
  text: StepText
}
/**
 * The state goes through the values in order.
 */
export interface Change {
  state: string
  values: string[]
}
export interface Hold {
  id: string
  kind: 'hold' | 'witness' | 'verify' | 'review'
  timing: 'before' | 'after'
  role: string
  /**
   * What is confirmed.
   */
  says: string
}
export interface Torque {
  id: string
  /**
   * As typed: what `snug` calls the same bolts.
   */
  name: string
  limit: PrintedLimit
  fastener: string | null
  lubrication: string | null
  pattern: string | null
  passes: TorquePass[]
  tool: string | null
  only: Only | null
  facts: NamedText[]
}
export interface PrintedLimit {
  /**
   * As the author typed it: this is what is judged.
   */
  typed: string
  /**
   * What is printed, in every printed unit.
   */
  text: string
  /**
   * Kind of quantity: torque is not energy.
   */
  kind: string
  form: string
  lower: PrintedBound | null
  upper: PrintedBound | null
  /**
   * Exact, in the typed unit.
   */
  aim: string | null
  /**
   * The aim to print behind the text, where the text does not say it.
   */
  aimText?: string
  /**
   * The typed unit.
   */
  unit: string
  /**
   * The typed unit in UCUM; empty where UCUM has none.
   */
  ucum: string
  inUnits: LimitInUnit[]
  /**
   * A second value that the author typed in parentheses.
   */
  pair: string | null
}
export interface PrintedBound {
  /**
   * In the typed unit, `p/q` or an integer.
   */
  exact: string
  inclusive: boolean
}
export interface LimitInUnit {
  system: 'metric' | 'inch' | 'both'
  unit: string
  text: string
}
export interface TorquePass {
  share: string | null
  text: string
}
export interface Reading {
  id: string
  name: string
  kind: 'measure' | 'check' | 'set' | 'derive' | 'count'
  asks: string | null
  limit: PrintedLimit | null
  /**
   * Unit of the blank where no limit says it.
   */
  unit: string | null
  positions: string[]
  instrument: string | null
  instance: 'as-found' | 'as-left' | null
  /**
   * Expression as typed.
   */
  expression: string | null
  /**
   * Items: Answer that passes.
   */
  passes: string[]
  /**
   * Items: Answer that fails.
   */
  fails: string[]
  given: string | null
  workedLimit?: WorkedLimit
  uncertainty?: ReadingUncertainty
  facts: NamedText[]
  only: Only | null
}
/**
 * A limit that readings settle at the bench.
 */
export interface WorkedLimit {
  /**
   * As printed.
   */
  typed: string
  lower: WorkedBound | null
  upper: WorkedBound | null
  table: TableLimit | null
  /**
   * Unit it is judged in.
   */
  unit: string
}
export interface WorkedBound {
  /**
   * Formula over readings by name.
   */
  expression: string
  /**
   * Whether the end itself is in limit.
   */
  inclusive: boolean
}
/**
 * The limit stands in the column, in the row whose first column fits.
 */
export interface TableLimit {
  table: string
  column: string
  /**
   * A name or formula that picks the row, or the value itself.
   */
  row: string
}
/**
 * Expanded uncertainty: readings nearer to an end of the limit are in doubt.
 */
export interface ReadingUncertainty {
  typed: string
  /**
   * `p/q` or an integer.
   */
  exact: string
  /**
   * Unit of the amount, or % of what is read.
   */
  unit: string
}
export interface Decide {
  ask: string
  branches: DecideBranch[]
}
export interface DecideBranch {
  answer: string | null
  when: string | null
  otherwise: boolean
  target: Target | null
  action: 'go' | 'continue' | 'stop'
  reason: string | null
  leave: Claim[]
}
/**
 * A wait in minutes, exact: `p/q` or an integer.
 */
export interface Waiting {
  earliest: string | null
  latest: string | null
  /**
   * The step it is counted from, as typed.
   */
  after: string | null
}
export interface CountedThing {
  id: string
  /**
   * A number, or the name of a count; null for all of them.
   */
  count: string | null
}
/**
 * How a figure of a step was worked out.
 */
export interface Working {
  key: 'torque' | 'lift' | 'support' | 'handle' | 'hot-work' | 'pressure' | 'takes' | 'wear' | 'rules'
  of: string
  says: string
  figures: WorkedFigure[]
  formula: string
  lines: string[]
  source: string
  caution: string
}
export interface WorkedFigure {
  name: string
  value: string
  exact: string | null
  unit: string
  kind: string
}
/**
 * State id to value, along the straight path.
 */
export interface StateValues {
  [k: string]: string
}
export interface HoldSummary {
  hold: string
  step: string
  number: string
  position: string | null
  kind: 'hold' | 'witness' | 'verify' | 'review'
  role: string
  says: string
  proves: Claim[]
  /**
   * Items: Zone that rests on what it proves.
   */
  zones: string[]
  /**
   * Items: Hazard of the steps up to the next hold.
   */
  hazards: string[]
}
/**
 * How long the job takes, as far as its steps say it. Minutes from the start of the job, rounded to a tenth.
 */
export interface Schedule {
  expected: number
  least: number
  most: number
  /**
   * Standard deviation of the longest way.
   */
  deviation: number
  /**
   * Steps on the way taken.
   */
  steps: number
  /**
   * Those of them that say how long they take or wait.
   */
  timedSteps: number
  personMinutes: {
    role: string
    minutes: number
  }[]
  /**
   * Items: Step or phase that makes the job so long.
   */
  critical: string[]
  phases: {
    phase: string
    start: number
    finish: number
    isCritical: boolean
    /**
     * False for a branch that is not the longest, and for a phase of another variant.
     */
    isOnTheWay: boolean
  }[]
  finishBy: {
    minutes: number
    /**
     * 0 to 1.
     */
    chance: number
  }[]
  /**
   * The variant that is counted: the longest.
   */
  variant: string | null
}
export interface Figure {
  file: string
  alt: string
  caption: string
  mediaType: 'image/svg+xml' | 'image/png' | 'image/jpeg'
  /**
   * SVG as text; PNG and JPEG in base64.
   */
  content: string
}
/**
 * What can follow what.
 */
export interface Graph {
  start: string
  nodes: GraphNode[]
  edges: GraphEdge[]
}
export interface GraphNode {
  id: string
  kind: 'start' | 'phase' | 'step' | 'end' | 'stop'
  phase: string | null
  step: string | null
  reason: string | null
  leave: Claim[]
}
export interface GraphEdge {
  from: string
  to: string
  kind: 'next' | 'branch' | 'else' | 'redo' | 'again' | 'skip' | 'stop'
  /**
   * In the author's words.
   */
  says: string
  /**
   * Condition as typed.
   */
  when: string | null
  atMost: number | null
  /**
   * How the step is left: everything in limit, something out, or not done at all.
   */
  outcome: 'passed' | 'failed' | 'skipped'
  /**
   * Name of the bounded way back that this edge is.
   */
  way: string | null
  /**
   * Followed only once this bounded way back is used up.
   */
  usedUp: string | null
}
/**
 * What was shown of every way through the work.
 */
export interface Proof {
  verdict: 'proved' | 'faulty' | 'nothing-to-prove' | 'not-proved'
  /**
   * Situations looked at.
   */
  situations: number
  /**
   * Combinations of variants followed.
   */
  variants: number
  properties: ProvedProperty[]
  /**
   * What stands beside every proof.
   */
  notModelled: string[]
}
/**
 * One thing that holds on every way, and what carries it.
 */
export interface ProvedProperty {
  kind: 'zone' | 'never' | 'held' | 'put-back' | 'lock' | 'span' | 'stop' | 'readings'
  says: string
  /**
   * Zone, state or thing.
   */
  subject: string
  /**
   * Numbers of the steps in which someone is exposed to it, or that change it.
   */
  steps: string[]
  /**
   * Numbers of the steps whose proofs it rests on.
   */
  provedAt: string[]
}
export interface AcceptedFinding {
  finding: string
  step: string | null
  because: string
  role: string
  messages: string[]
}
export interface StandingFinding {
  name: string
  severity: 'error' | 'warning' | 'advice'
  message: string
  advice: string
}
