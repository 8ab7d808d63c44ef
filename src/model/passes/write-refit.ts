import { type Finding, found } from '../../findings/finding.ts'
import { type MapEntry, type MapNode, type ScalarNode, valueAt } from '../../syntax/block-node.ts'
import type { WrittenStep } from '../../syntax/written.ts'
import type { Place } from '../../text/place.ts'
import { refitUnknown } from '../faults/faults.ts'
import type { DroppedStep, Phase, Step, Whereabouts } from '../procedure.ts'
import { PAIRED_KEY_NAMES, type PairedKey } from './declare-states.ts'
import { inWords } from './entries.ts'
import { entriesOf, textAt } from './read-node.ts'

/** A step as resolved, and as it was written: what a refit is made from. */
export interface StepSource {
  readonly step: Step
  readonly written: WrittenStep
}

export interface Refit {
  readonly steps: readonly WrittenStep[]
  /** For each written refit step, the id of the step it undoes. */
  readonly undoes: ReadonlyMap<WrittenStep, string>
  readonly dropped: readonly DroppedStep[]
}

const OPPOSITE: Readonly<Record<PairedKey, PairedKey | null>> = {
  removes: 'refits',
  refits: 'removes',
  locks: 'unlocks',
  unlocks: 'locks',
  'puts-on': 'takes-off',
  'takes-off': 'puts-on',
  snug: null,
}

const VERBS: Readonly<Partial<Record<PairedKey, string>>> = {
  refits: 'Refit',
  removes: 'Remove',
  unlocks: 'Unlock',
  locks: 'Lock',
  'takes-off': 'Take off',
  'puts-on': 'Put on',
}

/** What the refit needs as much as the removal did. */
const CARRIED_KEYS = ['hazards', 'ppe', 'uses', 'lift', 'support', 'handle', 'clear', 'together', 'only']

/**
 * Writes the refit of phases as steps of their own, last step first.
 *
 *     3.4 Remove the wheel nuts. removes: [24 × wheel-nuts]   →  Refit 24 × wheel-nuts.   refits: [24 × wheel-nuts]
 *     3.5 Draw the wheel off.    sets: { wheel: off }         →  the sentence of its `undo`, sets: { wheel: held }
 *     3.6 Chalk the side.                                     →  dropped: it changes nothing
 */
export function writeRefit(
  phases: readonly Phase[],
  sources: ReadonlyMap<string, StepSource>,
  told: readonly Whereabouts[],
  findings: Finding[],
): Refit {
  const steps: WrittenStep[] = []
  const undoes = new Map<WrittenStep, string>()
  const dropped: DroppedStep[] = []
  const standing = placesFrom(told, [...new Set(phases.flatMap(peopleOf))])
  for (const phase of [...phases].reverse()) {
    for (const { source, places } of withPlaces(phase, sources).reverse()) {
      const { step } = source
      const result = inverseOf(source, findings)
      if ('because' in result) {
        dropped.push({ number: step.number, text: step.text.plain, because: result.because })
        continue
      }
      const own = result.entries.find((entry) => entry.key === 'where')
      const moves = own ? [] : movesTo(places, standing, source.written.at)
      // Where `undo` says itself who is where, the next step says it for everybody again.
      if (own) standing.clear()
      const written = refitStep(source, result.text, [...moves, ...result.entries])
      steps.push(written)
      undoes.set(written, step.id)
    }
  }
  return { steps, undoes, dropped }
}

interface Inverse {
  readonly text: string
  readonly entries: readonly MapEntry[]
}

function inverseOf({ step, written }: StepSource, findings: Finding[]): Inverse | { readonly because: string } {
  const block = written.block?.map
  const undo = valueAt(block, 'undo')
  const sentence = textAt(undo, 'do')
  if (valueAt(undo, 'nothing') !== undefined) return { because: 'nothing to put back (said by its `undo`)' }
  const byHand = textAt(undo, 'by-hand')
  if (byHand !== null) return { because: `written by hand: ${byHand}` }
  const changed = step.sets.filter((change) => step.statesBefore[change.state] !== change.values.at(-1))
  const inverted = [
    ...PAIRED_KEY_NAMES.flatMap((key) => oppositeEntry(block, key)),
    ...(changed.length > 0 ? [setsBack(step, changed, written.at)] : []),
  ]
  const own = entriesOf(undo).filter((entry) => entry.key !== 'do')
  if (inverted.length === 0 && sentence === null && own.length === 0) {
    if (step.torques.length === 0 && step.snug.length === 0) return { because: 'it changes nothing' }
    findings.push(noInverse(step, 'it tightens something, and tightening has no opposite that can be worked out'))
    return { because: 'no known refit' }
  }
  if (sentence === null && step.when !== null)
    findings.push(
      noInverse(step, 'it is only done when its condition holds, so what to put back depends on the way taken'),
    )
  const carried = (block?.entries ?? []).filter(
    (entry) => CARRIED_KEYS.includes(entry.key) && !own.some((mine) => mine.key === entry.key),
  )
  const kept = inverted.filter((entry) => !own.some((mine) => mine.key === entry.key))
  return { text: sentence ?? generatedText(kept), entries: [...own, ...kept, ...carried] }
}

function noInverse(step: Step, reason: string): Finding {
  return found(refitUnknown, {
    at: step.at,
    message: `Step ${step.number} cannot be reversed: ${reason}.`,
    advice: 'Add `undo:` to the step: the sentence that puts it back, `nothing`, or `{ by-hand: id }`.',
  })
}

function oppositeEntry(block: MapNode | undefined, key: PairedKey): readonly MapEntry[] {
  const value = valueAt(block, key)
  const opposite = OPPOSITE[key]
  const entry = block?.entries.find((candidate) => candidate.key === key)
  return value && opposite && entry ? [{ key: opposite, keyAt: entry.keyAt, value }] : []
}

function setsBack(step: Step, changed: Step['sets'], at: Place): MapEntry {
  const entries = changed.map(
    (change): MapEntry => ({
      key: change.state,
      keyAt: change.at,
      value: scalar(step.statesBefore[change.state] ?? '', change.at),
    }),
  )
  return { key: 'sets', keyAt: at, value: { kind: 'map', entries, at } }
}

function generatedText(entries: readonly MapEntry[]): string {
  const sentences = entries.map((entry) => {
    const verb = VERBS[entry.key as PairedKey]
    // Ids are written with hyphens; a sentence is not.
    if (verb) return `${verb} ${inWords(entry.value).replaceAll('-', ' ')}.`
    return entriesOf(entry.value)
      .map((change) => `Bring ${change.key.replaceAll(/[-.]/g, ' ')} back to ${inWords(change.value)}.`)
      .join(' ')
  })
  return sentences.join(' ')
}

function refitStep({ step, written }: StepSource, text: string, entries: readonly MapEntry[]): WrittenStep {
  const map: MapNode = { kind: 'map', entries, at: written.at }
  return {
    typedNumber: '',
    id: null,
    at: written.at,
    roles: step.by.map((name) => ({ name, at: written.at })),
    text: [{ kind: 'text', text }],
    markdown: text,
    acts: [],
    details: [],
    block: { map, at: written.block?.at ?? written.at },
    steps: [],
  }
}

/** Zones by role; `everyone` where nobody is named. */
type Places = Map<string, readonly string[]>

/** Each step with the place of everybody while it is done; a step's own `where` stays for those that follow. */
function withPlaces(
  phase: Phase,
  sources: ReadonlyMap<string, StepSource>,
): { readonly source: StepSource; readonly places: ReadonlyMap<string, readonly string[]> }[] {
  let places = placesFrom(phase.where, peopleOf(phase))
  return withSubSteps(phase.steps).flatMap((step) => {
    places = new Map([...places, ...placesFrom(step.where, actorsOf(step))])
    const source = sources.get(step.id)
    return source ? [{ source, places }] : []
  })
}

function placesFrom(where: readonly Whereabouts[], people: readonly string[]): Places {
  return new Map(
    where.flatMap(({ role, zones }) => (role === null ? people : [role]).map((person) => [person, zones] as const)),
  )
}

function peopleOf(phase: Phase): readonly string[] {
  return [...new Set([...phase.by, ...withSubSteps(phase.steps).flatMap(actorsOf)])]
}

function actorsOf(step: Step): readonly string[] {
  const named = [...step.by, ...step.acts.flatMap((act) => act.by)]
  return named.length > 0 ? named : ['everyone']
}

/** The `where` that brings everybody to his place; those who stand there already are left out. */
function movesTo(places: ReadonlyMap<string, readonly string[]>, standing: Places, at: Place): readonly MapEntry[] {
  const entries = [...places].flatMap(([person, zones]): readonly MapEntry[] => {
    if (standing.get(person)?.join() === zones.join()) return []
    standing.set(person, zones)
    return [{ key: person, keyAt: at, value: { kind: 'list', items: zones.map((zone) => scalar(zone, at)), at } }]
  })
  return entries.length === 0 ? [] : [{ key: 'where', keyAt: at, value: { kind: 'map', entries, at } }]
}

function withSubSteps(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...withSubSteps(step.steps)])
}

function scalar(text: string, at: Place): ScalarNode {
  return { kind: 'scalar', text, at, contentStart: null }
}
