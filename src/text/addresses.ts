/**
 * Addresses: offsets that an edit elsewhere does not move. Each stretch of a text gets room to grow, so that what was read from it
 * keeps its places for as long as its own letters stay the same.
 *
 *     text       |front matter|phase one|phase two|
 *     addresses  |front matter|........|phase one|........|phase two|........|
 *
 * The order of the text is the order of the addresses.
 */
export interface Stretch {
  /** Offsets in the text. */
  readonly start: number
  readonly end: number
  /** Address of its first letter. */
  readonly address: number
}

/** The offset in the text that an address stands for. */
export function offsetAt(stretches: readonly Stretch[], address: number): number {
  const stretch = lastWhere(stretches, (candidate) => candidate.address <= address)
  return stretch === undefined ? address : Math.min(stretch.end, stretch.start + address - stretch.address)
}

/** The address of an offset in the text; between two stretches, that of the second. */
export function addressAt(stretches: readonly Stretch[], offset: number): number {
  const stretch = lastWhere(stretches, (candidate) => candidate.start <= offset)
  return stretch === undefined ? offset : stretch.address + offset - stretch.start
}

/** Gives the letters between two addresses. */
export function textByAddress(stretches: readonly Stretch[], text: string): Pick<string, 'slice'> {
  return {
    slice: (start = 0, end) =>
      text.slice(offsetAt(stretches, start), end === undefined ? undefined : offsetAt(stretches, end)),
  }
}

/** The last stretch that lies on the near side; they are sorted. */
function lastWhere(stretches: readonly Stretch[], isNear: (stretch: Stretch) => boolean): Stretch | undefined {
  let low = -1
  let high = stretches.length - 1
  while (low < high) {
    const middle = (low + high + 1) >> 1
    const stretch = stretches[middle]
    if (stretch !== undefined && isNear(stretch)) low = middle
    else high = middle - 1
  }
  return stretches[low]
}

/** Above every offset of a text that is read; the front matter stands below it. */
const FIRST = 2 ** 20
/** Small integers of the engine, which are cheap to keep. */
const LAST = 2 ** 30
/** Behind a stretch that was put in later. */
const ROOM = 2 ** 13

/** A stretch by its letters, and where it was put. */
export interface Addressed {
  readonly text: string
  readonly address: number
}

/**
 * Addresses for the stretches of a text that has changed since. Those at the top and at the bottom whose letters are the same keep
 * theirs; what stands between goes between. Where the room is used up, all are laid out afresh.
 */
export function addressesFor(before: readonly Addressed[], texts: readonly string[]): readonly number[] {
  if (before.length === 0) return layOut(texts)
  let top = 0
  while (top < texts.length && before[top]?.text === texts[top]) top++
  let bottom = 0
  const most = Math.min(texts.length, before.length) - top
  while (bottom < most && before.at(-1 - bottom)?.text === texts.at(-1 - bottom)) bottom++
  const kept = before.slice(before.length - bottom)
  const from = endOf(before[top - 1])
  const to = kept[0]?.address ?? LAST
  const between = texts.slice(top, texts.length - bottom)
  const middle = sameRoom(before.slice(top, before.length - bottom), between, to) ?? newRoom(between, from, to)
  if (middle === null) return layOut(texts)
  return [...before.slice(0, top), ...kept].map(({ address }) => address).toSpliced(top, 0, ...middle)
}

function endOf(stretch: Addressed | undefined): number {
  return stretch === undefined ? FIRST : stretch.address + stretch.text.length + 1
}

/** As many as before, each still in its own room. */
function sameRoom(before: readonly Addressed[], texts: readonly string[], to: number): readonly number[] | null {
  if (before.length !== texts.length) return null
  const fits = before.every(
    ({ address }, index) => address + (texts[index]?.length ?? 0) < (before[index + 1]?.address ?? to),
  )
  return fits ? before.map(({ address }) => address) : null
}

function newRoom(texts: readonly string[], from: number, to: number): readonly number[] | null {
  const letters = texts.reduce((sum, text) => sum + text.length, 0)
  const room = Math.min(ROOM, Math.floor((to - from - letters) / (texts.length + 1)))
  return room < 1 ? null : oneByOne(texts, from + (from === FIRST ? 0 : room), room)
}

function layOut(texts: readonly string[]): readonly number[] {
  const letters = texts.reduce((sum, text) => sum + text.length, 0)
  return oneByOne(texts, FIRST, Math.max(1, Math.floor((LAST - FIRST - letters) / Math.max(1, texts.length))))
}

function oneByOne(texts: readonly string[], from: number, room: number): readonly number[] {
  let address = from
  return texts.map((text) => {
    const own = address
    address += text.length + room
    return own
  })
}
