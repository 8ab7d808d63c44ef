/**
 * A plain value in which every part that says the same as it did before is the very same object as before, so that whoever works on
 * can tell by that. Things of a list that have an `id` are found again by it, others by their place.
 */
export function sameAsBefore<Value>(before: unknown, now: Value): Value {
  return again(before, now, new Map()) as Value
}

/** What came out for each object met: one that stands in several places comes out as one. */
type Met = Map<object, { readonly before: unknown; readonly result: unknown }>

function again(before: unknown, now: unknown, met: Met): unknown {
  if (before === now || typeof now !== 'object' || now === null || typeof before !== 'object' || before === null)
    return now
  const known = met.get(now)
  if (known?.before === before) return known.result
  const result =
    isPlain(now) && Object.getPrototypeOf(now) === Object.getPrototypeOf(before) ? joined(before, now, met) : now
  met.set(now, { before, result })
  return result
}

/** Maps and sets are handed on as they are. */
const isPlain = (thing: object): boolean => !(thing instanceof Map || thing instanceof Set)

function joined(before: object, now: object, met: Met): unknown {
  return Array.isArray(now)
    ? joinedList(before as readonly unknown[], now, met)
    : joinedObject(before as Fields, now as Fields, met)
}

type Fields = Readonly<Record<string, unknown>>

function joinedObject(before: Fields, now: Fields, met: Met): Fields {
  const keys = Object.keys(now)
  let isSame = keys.length === Object.keys(before).length
  let copy: Record<string, unknown> | null = null
  for (const key of keys) {
    const own = now[key]
    const part = again(before[key], own, met)
    if (part !== before[key] || (part === undefined && !Object.hasOwn(before, key))) isSame = false
    if (part === own) continue
    copy ??= Object.assign(Object.create(Object.getPrototypeOf(now)), now) as Record<string, unknown>
    copy[key] = part
  }
  return isSame ? before : (copy ?? now)
}

function joinedList(before: readonly unknown[], now: readonly unknown[], met: Met): readonly unknown[] {
  const byId = before.length === now.length ? null : idsOf(before)
  const list = now.map((item, index) => again(byId?.get(idOf(item)) ?? before[index], item, met))
  return list.length === before.length && list.every((item, index) => item === before[index]) ? before : list
}

function idsOf(things: readonly unknown[]): ReadonlyMap<unknown, unknown> {
  return new Map(things.flatMap((thing) => (idOf(thing) === undefined ? [] : [[idOf(thing), thing] as const])))
}

function idOf(thing: unknown): unknown {
  return typeof thing === 'object' && thing !== null && 'id' in thing ? thing.id : undefined
}
