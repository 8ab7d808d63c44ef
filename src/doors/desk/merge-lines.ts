/** A stretch of a merged text: agreed, or written differently by two people. */
export type MergePart =
  | { readonly kind: 'agreed'; readonly lines: readonly string[] }
  | {
      readonly kind: 'both'
      readonly base: readonly string[]
      readonly mine: readonly string[]
      readonly theirs: readonly string[]
    }

/** Two texts that come from the same one, joined line by line (three-way merge over longest common subsequences). */
export function mergeLines(base: string, mine: string, theirs: string): readonly MergePart[] {
  const baseLines = base.split('\n')
  const mineLines = mine.split('\n')
  const theirLines = theirs.split('\n')
  const inMine = matches(baseLines, mineLines)
  const inTheirs = matches(baseLines, theirLines)
  const parts: MergePart[] = []
  let at = { base: 0, mine: 0, theirs: 0 }
  while (at.base < baseLines.length || at.mine < mineLines.length || at.theirs < theirLines.length) {
    const agreed = { ...at }
    while (
      agreed.base < baseLines.length &&
      inMine[agreed.base] === agreed.mine &&
      inTheirs[agreed.base] === agreed.theirs
    ) {
      agreed.base++
      agreed.mine++
      agreed.theirs++
    }
    if (agreed.base > at.base) {
      add(parts, { kind: 'agreed', lines: baseLines.slice(at.base, agreed.base) })
      at = agreed
      continue
    }
    const next = nextCommon(at.base, baseLines.length, inMine, inTheirs) ?? {
      base: baseLines.length,
      mine: mineLines.length,
      theirs: theirLines.length,
    }
    add(
      parts,
      joined(
        baseLines.slice(at.base, next.base),
        mineLines.slice(at.mine, next.mine),
        theirLines.slice(at.theirs, next.theirs),
      ),
    )
    at = next
  }
  return parts
}

/** The merged text, or null where two people wrote in the same place. */
export function mergedText(parts: readonly MergePart[]): string | null {
  if (parts.some(({ kind }) => kind === 'both')) return null
  return textOfParts(parts, () => 'mine')
}

/** The text with one of the two in each place where they differ, by their order. */
export function textOfParts(parts: readonly MergePart[], choose: (place: number) => 'mine' | 'theirs'): string {
  let place = 0
  return parts.flatMap((part) => (part.kind === 'agreed' ? part.lines : part[choose(place++)])).join('\n')
}

function joined(base: readonly string[], mine: readonly string[], theirs: readonly string[]): MergePart {
  if (isSame(mine, theirs) || isSame(theirs, base)) return { kind: 'agreed', lines: mine }
  if (isSame(mine, base)) return { kind: 'agreed', lines: theirs }
  return { kind: 'both', base, mine, theirs }
}

function add(parts: MergePart[], part: MergePart): void {
  const last = parts.at(-1)
  if (last?.kind === 'agreed' && part.kind === 'agreed')
    parts[parts.length - 1] = { kind: 'agreed', lines: [...last.lines, ...part.lines] }
  else parts.push(part)
}

function nextCommon(from: number, end: number, inMine: readonly number[], inTheirs: readonly number[]) {
  for (let base = from; base < end; base++) {
    const mine = inMine[base] ?? -1
    const theirs = inTheirs[base] ?? -1
    if (mine >= 0 && theirs >= 0) return { base, mine, theirs }
  }
  return null
}

const isSame = (a: readonly string[], b: readonly string[]): boolean =>
  a.length === b.length && a.every((line, index) => line === b[index])

/** For each line of `a` the line of `b` that it became, or -1; rising (a longest common subsequence, E. Myers 1986). */
function matches(a: readonly string[], b: readonly string[]): readonly number[] {
  const found = a.map(() => -1)
  let start = 0
  while (start < a.length && start < b.length && a[start] === b[start]) {
    found[start] = start
    start++
  }
  let endA = a.length
  let endB = b.length
  while (endA > start && endB > start && a[endA - 1] === b[endB - 1]) found[--endA] = --endB
  for (const [inA, inB] of commonLines(a.slice(start, endA), b.slice(start, endB))) found[start + inA] = start + inB
  return found
}

/** Pairs of equal lines of the shortest edit script, from the greedy algorithm in O((N+M)D). */
function commonLines(a: readonly string[], b: readonly string[]): readonly (readonly [number, number])[] {
  const traces: (readonly number[])[] = []
  const reach: number[] = []
  const size = a.length + b.length
  const at = (diagonal: number): number => reach[diagonal + size + 1] ?? 0
  for (let edits = 0; edits <= size; edits++) {
    traces.push([...reach])
    for (let diagonal = -edits; diagonal <= edits; diagonal += 2) {
      const down = diagonal === -edits || (diagonal !== edits && at(diagonal - 1) < at(diagonal + 1))
      let inA = down ? at(diagonal + 1) : at(diagonal - 1) + 1
      while (inA < a.length && inA - diagonal < b.length && a[inA] === b[inA - diagonal]) inA++
      reach[diagonal + size + 1] = inA
      if (inA >= a.length && inA - diagonal >= b.length) return walkedBack(traces, a.length, b.length, size)
    }
  }
  return []
}

function walkedBack(
  traces: readonly (readonly number[])[],
  lengthA: number,
  lengthB: number,
  size: number,
): readonly (readonly [number, number])[] {
  const pairs: (readonly [number, number])[] = []
  let inA = lengthA
  let inB = lengthB
  for (let edits = traces.length - 1; edits >= 0; edits--) {
    const reach = traces[edits] ?? []
    const at = (diagonal: number): number => reach[diagonal + size + 1] ?? 0
    const diagonal = inA - inB
    const down = diagonal === -edits || (diagonal !== edits && at(diagonal - 1) < at(diagonal + 1))
    const before = down ? diagonal + 1 : diagonal - 1
    const beforeA = edits === 0 ? 0 : at(before)
    const beforeB = edits === 0 ? 0 : beforeA - before
    while (inA > beforeA && inB > beforeB && inA > 0 && inB > 0) pairs.push([--inA, --inB])
    inA = beforeA
    inB = beforeB
  }
  return pairs.reverse()
}
