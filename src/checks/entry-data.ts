import type { Entry } from '../model/entries.ts'
import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { PlainValue } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'

/** Something described under a key of a step by its own name: `lift: { hub: … }`. */
export interface NamedPart {
  readonly name: string
  /** The long form, every scalar as typed. */
  readonly data: PlainValue
  readonly at: Place
  readonly step: Step
  readonly phase: Phase
}

/** Everything under these keys of a step that has a name of its own, each once however often its step is repeated. */
export function namedParts(procedure: Procedure, ...keys: readonly string[]): readonly NamedPart[] {
  return everyWrittenStep(procedure).flatMap(({ step, phase }) =>
    step.entries
      .filter(({ key }) => keys.includes(key))
      .flatMap(({ data, at }) =>
        Object.entries(isMap(data) ? data : {}).map(([name, part]) => ({ name, data: part, at, step, phase })),
      ),
  )
}

export function entryOf({ entries }: { readonly entries: readonly Entry[] }, key: string): Entry | undefined {
  return entries.find((entry) => entry.key === key)
}

/** The value under a key as one text, as typed; null where there is none. */
export function textIn(data: PlainValue | undefined, key: string): string | null {
  const value = partIn(data, key)
  return typeof value === 'string' && value !== '' ? value : null
}

/** The values under a key, one or several; a map gives its names. */
export function listIn(data: PlainValue | undefined, key: string): readonly string[] {
  const value = partIn(data, key)
  if (value === undefined) return []
  if (typeof value === 'string') return [value]
  if (!isMap(value)) return value.flatMap((item) => (typeof item === 'string' ? [item] : (textIn(item, 'thing') ?? [])))
  return Object.keys(value)
}

export function partIn(data: PlainValue | undefined, key: string): PlainValue | undefined {
  return data !== undefined && isMap(data) ? data[key] : undefined
}

function isMap(data: PlainValue): data is { readonly [key: string]: PlainValue } {
  return typeof data === 'object' && !Array.isArray(data)
}
