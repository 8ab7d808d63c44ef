/** Situations met, each once: bytes in one growing block, found again by a hash table. Plain numbers, no objects in between. */
export interface Situations {
  readonly words: number
  /** Bytes of all situations, a row each. */
  rows: Uint32Array
  node: Int32Array
  /** The situation before it on the shortest way; −1 at the start. */
  parent: Int32Array
  /** The edge by which it was reached, doubled; odd where the step before it was out of limit. */
  via: Int32Array
  count: number
  table: Int32Array
}

const FIRST_ROWS = 1024

export function noSituations(width: number): Situations {
  const words = width >> 2
  return {
    words,
    rows: new Uint32Array(FIRST_ROWS * words),
    node: new Int32Array(FIRST_ROWS),
    parent: new Int32Array(FIRST_ROWS),
    via: new Int32Array(FIRST_ROWS),
    count: 0,
    table: new Int32Array(FIRST_ROWS * 2).fill(-1),
  }
}

/** Adds a situation unless it was met before; gives its number, or −1 where it is not new. */
export function meet(all: Situations, row: Uint32Array, node: number, parent: number, via: number): number {
  const { words } = all
  let hash = Math.imul(node + 1, 0x9e3779b1)
  for (let word = 0; word < words; word++) {
    hash = Math.imul(hash ^ (row[word] ?? 0), 0x85ebca6b)
    hash ^= hash >>> 15
  }
  const mask = all.table.length - 1
  let slot = hash & mask
  for (;;) {
    const known = all.table[slot] ?? -1
    if (known < 0) break
    if (all.node[known] === node && isSame(all.rows, known * words, row, words)) return -1
    slot = (slot + 1) & mask
  }
  if ((all.count + 1) * words > all.rows.length || all.count + 1 > all.node.length) grow(all)
  const number = all.count++
  all.rows.set(row.subarray(0, words), number * words)
  all.node[number] = node
  all.parent[number] = parent
  all.via[number] = via
  all.table[slot] = number
  if (all.count * 2 > all.table.length) enlargeTable(all)
  return number
}

function isSame(rows: Uint32Array, from: number, row: Uint32Array, words: number): boolean {
  for (let word = 0; word < words; word++) if (rows[from + word] !== row[word]) return false
  return true
}

function grow(all: Situations): void {
  const rows = new Uint32Array(all.rows.length * 2)
  rows.set(all.rows)
  all.rows = rows
  all.node = doubled(all.node)
  all.parent = doubled(all.parent)
  all.via = doubled(all.via)
}

function doubled(numbers: Int32Array): Int32Array {
  const twice = new Int32Array(numbers.length * 2)
  twice.set(numbers)
  return twice
}

function enlargeTable(all: Situations): void {
  const { words, rows, node } = all
  const table = new Int32Array(all.table.length * 2).fill(-1)
  const mask = table.length - 1
  for (let number = 0; number < all.count; number++) {
    let hash = Math.imul((node[number] ?? 0) + 1, 0x9e3779b1)
    for (let word = 0; word < words; word++) {
      hash = Math.imul(hash ^ (rows[number * words + word] ?? 0), 0x85ebca6b)
      hash ^= hash >>> 15
    }
    let slot = hash & mask
    while ((table[slot] ?? -1) >= 0) slot = (slot + 1) & mask
    table[slot] = number
  }
  all.table = table
}
