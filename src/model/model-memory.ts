import type { Finding } from '../findings/finding.ts'
import type { BlockNode } from '../syntax/block-node.ts'
import type { WrittenStep } from '../syntax/written.ts'
import { isEqual } from '../text/is-equal.ts'
import type { Acceptance, Procedure, Step } from './procedure.ts'
import type { Schedule } from './schedule/schedule.ts'

/** What is kept from one resolving of a procedure to the next. */
export interface ModelMemory {
  /** What every step rests on beside its own words. */
  world: Readonly<Record<string, unknown>>
  /** Steps by what they were written as. They hold in one world only. */
  steps: WeakMap<WrittenStep, Map<string, KeptStep>>
  tools: KeptTools | null
  scheduled: KeptSchedule | null
  last: Omit<Procedure, 'graph'> | null
}

/** A resolved step, with all that it left behind. */
export interface KeptStep {
  readonly step: Step
  readonly ids: readonly string[]
  readonly findings: readonly Finding[]
  readonly accepted: readonly Acceptance[]
  readonly writtenOf: readonly (readonly [string, WrittenStep])[]
}

interface KeptTools {
  readonly written: ReadonlyMap<string, BlockNode>
  readonly tools: unknown
  readonly instruments: unknown
  readonly fact: (tool: string, fact: string) => string | null
}

interface KeptSchedule {
  readonly key: string
  /** Of all steps, at the time. */
  readonly ids: readonly string[]
  readonly schedule: Schedule | null
}

export function newModelMemory(): ModelMemory {
  return { world: {}, steps: new WeakMap(), tools: null, scheduled: null, last: null }
}

/** Forgets every step where something else that steps rest on has changed. */
export function enterWorld(memory: ModelMemory, world: ModelMemory['world']): void {
  if (isEqual(memory.world, world)) return
  memory.world = world
  memory.steps = new WeakMap()
}

/** Passes of one step that are kept. */
const MOST_KEPT = 32

export function keepStep(memory: ModelMemory, written: WrittenStep, key: string, kept: KeptStep): void {
  const known = memory.steps.get(written) ?? new Map<string, KeptStep>()
  if (known.size >= MOST_KEPT) known.clear()
  memory.steps.set(written, known.set(key, kept))
}
