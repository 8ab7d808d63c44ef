import type { Entry, Move, Person } from './entry.ts'
import { type ItemContents, identityKey, type JobState, readingKey } from './job-state.ts'

/** Reads the state off the entries. `contents` says what each item id holds. */
export function jobState(entries: readonly Entry[], contents: ReadonlyMap<string, ItemContents>): JobState {
  const state = emptyState()
  for (const entry of entries) enter(state, entry, contents)
  return state
}

export function emptyState(): JobState {
  return {
    run: '',
    begun: '',
    equipment: '',
    people: new Map(),
    signedIn: [],
    variants: new Map(),
    ticks: new Map(),
    readings: new Map(),
    emptied: new Map(),
    earlierReadings: new Map(),
    spoiled: new Map(),
    identities: new Map(),
    signatures: new Map(),
    withdrawn: [],
    decisions: new Map(),
    ended: new Set(),
    attempts: new Map(),
    opened: new Set(),
    passedOver: new Set(),
    skipped: new Set(),
    waits: new Map(),
    stopped: new Map(),
    handovers: [],
    deviations: [],
    notes: [],
    photos: [],
    end: null,
  }
}

/** Adds one entry to a state. */
export function enter(state: JobState, entry: Entry, contents: ReadonlyMap<string, ItemContents>): void {
  const { at, by } = entry
  switch (entry.kind) {
    case 'begin':
      state.run = entry.run
      state.begun = at
      return
    case 'equipment':
      state.equipment = entry.text
      return
    case 'person':
      signIn(state, entry.person, at)
      return
    case 'variant':
      state.variants.set(entry.name, entry.value)
      return
    case 'tick':
      state.ticks.delete(entry.item)
      state.ticks.set(entry.item, { at, by })
      for (const key of contents.get(entry.item)?.spoils ?? [])
        if (state.readings.has(key)) state.spoiled.set(key, entry.item)
      return
    case 'untick':
      state.ticks.delete(entry.item)
      for (const [key, spoiler] of state.spoiled) if (spoiler === entry.item) state.spoiled.delete(key)
      return
    case 'reading':
      enterReading(state, entry)
      return
    case 'identity':
      state.identities.set(identityKey(entry.for, entry.part), { at, by, text: entry.text })
      return
    case 'sign':
    case 'waive': {
      const signer = by[0] ?? { role: '', name: '', initials: '' }
      state.signatures.set(entry.hold, { at, ...signer, waived: entry.kind === 'waive', entry: entry.id })
      return
    }
    case 'decide':
      move(state, entry.move, contents, '')
      // A branch that leads back is decided afresh when the work comes here again.
      if (!entry.move.clears.includes(`decide:${entry.step}`))
        state.decisions.set(entry.step, { at, branch: entry.branch, says: entry.says, move: entry.move })
      return
    case 'undecide':
      takeBackDecision(state, entry.step)
      return
    case 'again':
      state.attempts.set(entry.step, entry.attempt)
      move(state, entry.move, contents, entry.step)
      return
    case 'go':
      move(state, entry.move, contents, '')
      return
    case 'until':
      if (entry.met) state.ended.add(entry.phase)
      else state.attempts.set(entry.phase, entry.attempt)
      move(state, entry.move, contents, entry.phase)
      return
    case 'skip':
      state.skipped.add(entry.part)
      return
    case 'unskip':
      state.skipped.delete(entry.part)
      return
    case 'wait':
      state.waits.set(entry.wait, at)
      return
    case 'deviation':
      state.deviations.push({ at, by, step: entry.step, wait: entry.wait, text: entry.text, because: entry.because })
      return
    case 'note':
      state.notes.push({ at, by, step: entry.step, text: entry.text })
      return
    case 'photo':
      state.photos.push({
        at,
        by,
        step: entry.step,
        photo: entry.photo,
        mediaType: entry.mediaType,
        bytes: entry.bytes,
      })
      return
    case 'handover':
      state.handovers.push(entry)
      signIn(state, entry.to, at)
      move(state, entry.move, contents, '')
      return
    case 'prove-again':
      move(state, entry.move, contents, '')
      return
    case 'stop':
      state.stopped.set(entry.item, { at, by, name: by[0]?.name ?? '', because: entry.because })
      return
    case 'end':
      state.end = { at, by, how: entry.how, text: entry.text }
      return
  }
}

function signIn(state: JobState, person: Person, at: string): void {
  state.people.set(person.role, person)
  state.signedIn.push({ ...person, at })
}

function enterReading(state: JobState, entry: Extract<Entry, { kind: 'reading' }>): void {
  const key = readingKey(entry.reading, entry.position)
  // Read again after it was spoilt: the old value is an earlier reading.
  if (state.spoiled.has(key)) putAside(state, key)
  const old = state.readings.get(key)
  const { at, by, typed, verdict, judgedAs, limit, correction } = entry
  const kept = old?.before ?? state.emptied.get(key) ?? []
  const before =
    old === undefined || correction === null
      ? kept
      : [...kept, { typed: old.typed, at: old.at, by: old.by, because: correction.because, changed: at, changedBy: by }]
  state.emptied.delete(key)
  state.readings.delete(key)
  if (typed !== '') state.readings.set(key, { at, by, typed, verdict, judgedAs, limit, before })
  else if (before.length > 0) state.emptied.set(key, before)
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
    for (const wait of held.waits) state.waits.delete(wait)
    if (held.hold !== null) withdraw(state, held.hold)
    if (held.phase !== null) state.ended.delete(held.phase)
    if (held.tried !== null && held.tried !== counting) state.attempts.delete(held.tried)
    if (held.decision !== null) takeBackDecision(state, held.decision)
  }
  for (const id of passesOver) state.passedOver.add(id)
  if (opens !== null) state.opened.add(opens)
}

function withdraw(state: JobState, hold: string): void {
  const signature = state.signatures.get(hold)
  if (signature === undefined) return
  state.withdrawn.push({ ...signature, hold })
  state.signatures.delete(hold)
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
