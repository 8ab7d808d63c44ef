/**
 * The known name that a mistyped one most likely meant, or null where none is near:
 * at most a third of its letters (one at least) added, dropped, changed or swapped with their neighbour.
 */
export function nearestName(typed: string, known: Iterable<string>): string | null {
  const wanted = typed.toLowerCase()
  const furthest = Math.max(1, Math.floor(wanted.length / 3))
  let best: string | null = null
  let bestDistance = furthest + 1
  for (const name of known) {
    if (Math.abs(name.length - wanted.length) >= bestDistance) continue
    const distance = editDistance(wanted, name.toLowerCase())
    if (distance < bestDistance) {
      best = name
      bestDistance = distance
    }
  }
  return best
}

/** Damerau–Levenshtein distance (adjacent letters may swap). */
function editDistance(a: string, b: string): number {
  let beforeLast: number[] = []
  let last = Array.from({ length: b.length + 1 }, (_, column) => column)
  for (let row = 1; row <= a.length; row++) {
    const current = [row]
    for (let column = 1; column <= b.length; column++) {
      const same = a[row - 1] === b[column - 1]
      let cost = Math.min(
        (last[column] ?? 0) + 1,
        (current[column - 1] ?? 0) + 1,
        (last[column - 1] ?? 0) + (same ? 0 : 1),
      )
      if (row > 1 && column > 1 && a[row - 1] === b[column - 2] && a[row - 2] === b[column - 1])
        cost = Math.min(cost, (beforeLast[column - 2] ?? 0) + 1)
      current.push(cost)
    }
    beforeLast = last
    last = current
  }
  return last[b.length] ?? 0
}
