/** A thing that may exist once for each position: a state, a zone. */
export interface Positioned {
  readonly id: string
  readonly name: string
  readonly position: string | null
}

/** Looks up what a name means at a place of the procedure. */
export interface Names {
  readonly byId: ReadonlyMap<string, Positioned>
  readonly byName: ReadonlyMap<string, readonly Positioned[]>
}

export function namesOf(things: readonly Positioned[]): Names {
  const byName = new Map<string, Positioned[]>()
  for (const thing of things) {
    const same = byName.get(thing.name)
    if (same) same.push(thing)
    else byName.set(thing.name, [thing])
  }
  return { byId: new Map(things.map((thing) => [thing.id, thing])), byName }
}

/**
 * The ids that a typed name stands for.
 *
 *     hub        inside the repeat for `left`   →  hub.left
 *     hub.all    anywhere                       →  hub.left, hub.right
 *     hub.left   anywhere                       →  hub.left
 *     hub        outside a repeat               →  hub   (no such id: a check asks which one)
 */
export function idsFor(typed: string, positions: readonly string[], names: Names): readonly string[] {
  if (names.byId.has(typed)) return [typed]
  if (typed.endsWith('.all')) {
    const all = names.byName.get(typed.slice(0, -'.all'.length))
    if (all) return all.map((thing) => thing.id)
  }
  const here = names.byName.get(typed)?.find((thing) => thing.position !== null && positions.includes(thing.position))
  return [here?.id ?? typed]
}
