/**
 * A function that works its answer out once for each thing it is asked about, and remembers it for as long as the thing is there.
 * Only for functions that look at nothing but that thing, and for things that never change.
 */
export function oncePer<Thing extends object, Answer>(work: (thing: Thing) => Answer): (thing: Thing) => Answer {
  const known = new WeakMap<Thing, { readonly answer: Answer }>()
  return (thing) => {
    const before = known.get(thing)
    if (before !== undefined) return before.answer
    const answer = work(thing)
    known.set(thing, { answer })
    return answer
  }
}
