import type { Job } from './job.ts'
import type { Plan } from './plan.ts'
import type { FlowFaultName } from './proof.ts'
import { meet, type Situations } from './situations.ts'
import type { Spot } from './spots.ts'

/** A fault as the exploration meets it: numbers only, told in words afterwards. */
export interface Sighting {
  readonly fault: FlowFaultName
  /** Zone, state, thing or reading; `other` is the state of a zone. */
  readonly about: number
  readonly other: number
  /** Somebody who is there. */
  readonly role: number
  readonly spot: number
  readonly situation: number
}

/** One exploration under way. */
export interface Run {
  readonly plan: Plan
  readonly all: Situations
  /** By node and byte: 255 where something later still reads it. */
  readonly live: Uint8Array
  readonly liveWords: Uint32Array
  readonly sightings: Map<string, Sighting[]>
  /** By node and zone: 1 where somebody was seen in it. */
  readonly seenIn: Uint8Array
  /** State and number of the step, for each proof taken. */
  readonly provedAt: Set<string>
  /** By node: 1 where some way comes to it. */
  readonly reached: Uint8Array
  /** By edge: 1 where some way takes it. */
  readonly taken: Uint8Array
  /** Ages that proofs of a state can have, in ticks. */
  readonly ages: number[][]
  readonly scratch: Uint8Array
  readonly scratchWords: Uint32Array
  /** Where the exploration stands. */
  situation: number
  spot: Spot
  /** Other steps under way at the same time. */
  beside: readonly Job[]
  /** The question that could not be answered last. */
  asked: number
  isTooLarge: boolean
  /** Nodes where a proof was signed for what is not so: it changed nothing there. */
  readonly unproved: Set<number>
  /** While somebody asks whether a proof is still relied on: its state, else −1; and whether it is. */
  probed: number
  isReliedOn: boolean
  /** Whether some way led on from here. */
  goesOn: boolean
}

/** More sightings than this of one kind at one place tell nothing new. */
const MOST_SIGHTINGS = 40

export function report(run: Run, fault: FlowFaultName, about: number, other = -1, role = -1): void {
  const key = `${fault} ${about} ${other} ${run.spot.number}`
  const known = run.sightings.get(key)
  if (known && (known.length >= MOST_SIGHTINGS || known.at(-1)?.situation === run.situation)) return
  const sighting = { fault, about, other, role, spot: run.spot.number, situation: run.situation }
  if (known) known.push(sighting)
  else run.sightings.set(key, [sighting])
}

/** Puts a situation among those still to be followed; only what something later reads is kept of it. */
export function arrive(run: Run, to: number, via: number): void {
  const { scratchWords, liveWords } = run
  const { words } = run.all
  const from = to * words
  for (let word = 0; word < words; word++)
    scratchWords[word] = (scratchWords[word] ?? 0) & (liveWords[from + word] ?? 0)
  run.goesOn = true
  meet(run.all, run.scratchWords, to, run.situation, via)
}
