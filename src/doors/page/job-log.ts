/**
 * What happened on this job, one entry after the other. Nothing is ever changed or taken out: a correction is a new
 * entry. What the page shows, and what the record says, is read off these entries.
 */
export type JobEvent = { readonly at: string } & JobHappening

export type JobHappening =
  | { readonly kind: 'begin'; readonly run: string }
  | { readonly kind: 'equipment'; readonly text: string }
  | { readonly kind: 'crew'; readonly role: string; readonly name: string }
  | { readonly kind: 'variant'; readonly name: string; readonly value: string }
  /** `id` of a step item or of a small tick; `by` names who did it. */
  | { readonly kind: 'tick'; readonly id: string; readonly by: readonly Person[] }
  | { readonly kind: 'untick'; readonly id: string }
  | {
      readonly kind: 'reading'
      readonly reading: string
      readonly position: string | null
      readonly typed: string
      readonly verdict: Verdict
      /** As judged, in the unit of the limit; empty where nothing was worked out. */
      readonly judgedAs: string
    }
  | { readonly kind: 'sign'; readonly hold: string; readonly role: string; readonly name: string }
  | { readonly kind: 'waive'; readonly hold: string; readonly name: string }
  | {
      readonly kind: 'decide'
      readonly step: string
      readonly branch: number
      readonly says: string
      readonly move: Move
    }
  /** A decision taken back before anything rests on it. */
  | { readonly kind: 'undecide'; readonly step: string }
  /** Steps are done again, after a reading out of limit. */
  | { readonly kind: 'again'; readonly step: string; readonly attempt: number; readonly move: Move }
  | { readonly kind: 'go'; readonly step: string; readonly move: Move }
  | {
      readonly kind: 'until'
      readonly phase: string
      readonly met: boolean
      readonly attempt: number
      readonly move: Move
    }
  /** A step or phase whose condition does not hold. */
  | { readonly kind: 'skip'; readonly id: string }
  | { readonly kind: 'unskip'; readonly id: string }
  | { readonly kind: 'stop'; readonly item: string; readonly because: string; readonly name: string }
  | { readonly kind: 'handover'; readonly phase: string; readonly from: string; readonly to: string }
  | { readonly kind: 'deviation'; readonly text: string; readonly name: string }

export interface Person {
  readonly role: string
  readonly name: string
}

/**
 * `noted`: written down, nothing to judge it by. `in-doubt`: nearer to an end than its uncertainty. `waiting`: its limit
 * rests on readings that are not taken yet.
 */
export type Verdict = 'in' | 'low' | 'high' | 'out' | 'in-doubt' | 'noted' | 'waiting' | 'unreadable'

/** Where the work goes on: items to do afresh, items left out, the branch that opens. */
export interface Move {
  readonly clears: readonly string[]
  readonly passesOver: readonly string[]
  readonly opens: string | null
}

export const noMove: Move = { clears: [], passesOver: [], opens: null }

interface Signature {
  readonly at: string
  readonly name: string
  readonly role: string | null
  readonly waived: boolean
}

export interface Reading {
  readonly at: string
  readonly typed: string
  readonly verdict: Verdict
  readonly judgedAs: string
}

interface Decision {
  readonly at: string
  readonly branch: number
  readonly says: string
  readonly move: Move
}

export interface JobState {
  run: string
  begun: string
  equipment: string
  readonly crew: Map<string, string>
  readonly variants: Map<string, string>
  readonly ticks: Map<string, { readonly at: string; readonly by: readonly Person[] }>
  /** By `readingKey`. */
  readonly readings: Map<string, Reading>
  /** Of tries before this one, the oldest first. */
  readonly earlierReadings: Map<string, readonly Reading[]>
  /** Readings that no longer count, each with the item that made them so. */
  readonly spoiled: Map<string, string>
  /** By hold id. */
  readonly signatures: Map<string, Signature>
  /** By step id. */
  readonly decisions: Map<string, Decision>
  /** Phases whose condition for ending is met. */
  readonly ended: Set<string>
  /** By step or phase id: the try under way, counted from 1. */
  readonly attempts: Map<string, number>
  readonly opened: Set<string>
  readonly passedOver: Set<string>
  readonly skipped: Set<string>
  readonly stopped: Map<string, { readonly at: string; readonly name: string; readonly because: string }>
  readonly handovers: { readonly at: string; readonly phase: string; readonly from: string; readonly to: string }[]
  readonly deviations: { readonly at: string; readonly text: string; readonly name: string }[]
}

/** What an item of the job holds that is lost when it is done afresh. */
export interface ItemContents {
  readonly ticks: readonly string[]
  readonly readings: readonly string[]
  readonly hold: string | null
  /** Step that decides. */
  readonly decision: string | null
  /** Repeated phase that ends. */
  readonly phase: string | null
  /** Step or phase whose tries are counted. */
  readonly tried: string | null
  /** Readings that no longer count once it is done. */
  readonly spoils: readonly string[]
}

export function readingKey(reading: string, position: string | null): string {
  return position === null ? reading : `${reading}|${position}`
}

/** Reads the state off the entries. `contents` says what each item id holds. */
export function jobState(events: readonly JobEvent[], contents: ReadonlyMap<string, ItemContents>): JobState {
  const state: JobState = {
    run: '',
    begun: '',
    equipment: '',
    crew: new Map(),
    variants: new Map(),
    ticks: new Map(),
    readings: new Map(),
    earlierReadings: new Map(),
    spoiled: new Map(),
    signatures: new Map(),
    decisions: new Map(),
    ended: new Set(),
    attempts: new Map(),
    opened: new Set(),
    passedOver: new Set(),
    skipped: new Set(),
    stopped: new Map(),
    handovers: [],
    deviations: [],
  }
  for (const event of events) enter(state, event, contents)
  return state
}

function enter(state: JobState, event: JobEvent, contents: ReadonlyMap<string, ItemContents>): void {
  const { at } = event
  switch (event.kind) {
    case 'begin':
      state.run = event.run
      state.begun = at
      return
    case 'equipment':
      state.equipment = event.text
      return
    case 'crew':
      state.crew.set(event.role, event.name)
      return
    case 'variant':
      state.variants.set(event.name, event.value)
      return
    case 'tick':
      state.ticks.set(event.id, { at, by: event.by })
      for (const key of contents.get(event.id)?.spoils ?? [])
        if (state.readings.has(key)) state.spoiled.set(key, event.id)
      return
    case 'untick':
      state.ticks.delete(event.id)
      for (const [key, by] of state.spoiled) if (by === event.id) state.spoiled.delete(key)
      return
    case 'reading': {
      const key = readingKey(event.reading, event.position)
      // Read again after it was spoilt: the old value is an earlier reading.
      if (state.spoiled.has(key)) putAside(state, key)
      if (event.typed === '') state.readings.delete(key)
      else state.readings.set(key, { at, typed: event.typed, verdict: event.verdict, judgedAs: event.judgedAs })
      return
    }
    case 'sign':
      state.signatures.set(event.hold, { at, name: event.name, role: event.role, waived: false })
      return
    case 'waive':
      state.signatures.set(event.hold, { at, name: event.name, role: null, waived: true })
      return
    case 'decide':
      move(state, event.move, contents, '')
      // A branch that leads back is decided afresh when the work comes here again.
      if (!event.move.clears.includes(`decide:${event.step}`))
        state.decisions.set(event.step, { at, branch: event.branch, says: event.says, move: event.move })
      return
    case 'undecide':
      takeBackDecision(state, event.step)
      return
    case 'again':
      state.attempts.set(event.step, event.attempt)
      move(state, event.move, contents, event.step)
      return
    case 'go':
      move(state, event.move, contents, '')
      return
    case 'until':
      if (event.met) state.ended.add(event.phase)
      else state.attempts.set(event.phase, event.attempt)
      move(state, event.move, contents, event.phase)
      return
    case 'skip':
      state.skipped.add(event.id)
      return
    case 'unskip':
      state.skipped.delete(event.id)
      return
    case 'stop':
      state.stopped.set(event.item, { at, name: event.name, because: event.because })
      return
    case 'handover':
      state.handovers.push({ at, phase: event.phase, from: event.from, to: event.to })
      return
    case 'deviation':
      state.deviations.push({ at, text: event.text, name: event.name })
      return
  }
}

/** `counting`: the step or phase whose tries go on being counted; those of all else that is cleared start afresh. */
function move(
  state: JobState,
  { clears, passesOver, opens }: Move,
  contents: ReadonlyMap<string, ItemContents>,
  counting: string,
): void {
  for (const id of clears) {
    state.passedOver.delete(id)
    state.ticks.delete(id)
    state.stopped.delete(id)
    const held = contents.get(id)
    if (held === undefined) continue
    for (const tick of held.ticks) state.ticks.delete(tick)
    for (const key of held.readings) putAside(state, key)
    if (held.hold !== null) state.signatures.delete(held.hold)
    if (held.phase !== null) state.ended.delete(held.phase)
    if (held.tried !== null && held.tried !== counting) state.attempts.delete(held.tried)
    if (held.decision !== null) takeBackDecision(state, held.decision)
  }
  for (const id of passesOver) state.passedOver.add(id)
  if (opens !== null) state.opened.add(opens)
}

function putAside(state: JobState, key: string): void {
  const reading = state.readings.get(key)
  state.spoiled.delete(key)
  if (reading === undefined) return
  state.earlierReadings.set(key, [...(state.earlierReadings.get(key) ?? []), reading])
  state.readings.delete(key)
}

function takeBackDecision(state: JobState, step: string): void {
  const decision = state.decisions.get(step)
  if (decision === undefined) return
  if (decision.move.opens !== null) state.opened.delete(decision.move.opens)
  for (const id of decision.move.passesOver) state.passedOver.delete(id)
  state.decisions.delete(step)
}
