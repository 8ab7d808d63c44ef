/**
 * Which characters a TrueType font can draw, from its `cmap` table (ISO/IEC 14496-22, OpenType, section "cmap";
 * formats 4 and 12, which every font in use here has).
 */
export function charactersOf(font: Uint8Array): ReadonlySet<number> {
  const view = new DataView(font.buffer, font.byteOffset, font.byteLength)
  const covered = new Set<number>()
  const cmap = tableOffset(view, 'cmap')
  if (cmap === null) return covered
  const count = view.getUint16(cmap + 2)
  for (let index = 0; index < count; index += 1) {
    const record = cmap + 4 + index * 8
    const platform = view.getUint16(record)
    const encoding = view.getUint16(record + 2)
    const isUnicode = platform === 0 || (platform === 3 && (encoding === 1 || encoding === 10))
    if (isUnicode) readSubtable(view, cmap + view.getUint32(record + 4), covered)
  }
  return covered
}

function tableOffset(view: DataView, tag: string): number | null {
  const count = view.getUint16(4)
  for (let index = 0; index < count; index += 1) {
    const record = 12 + index * 16
    const name = String.fromCharCode(...[0, 1, 2, 3].map((at) => view.getUint8(record + at)))
    if (name === tag) return view.getUint32(record + 8)
  }
  return null
}

function readSubtable(view: DataView, at: number, covered: Set<number>): void {
  const format = view.getUint16(at)
  if (format === 4) readSegments(view, at, covered)
  if (format === 12) readGroups(view, at, covered)
}

/** Format 4: segments of 16-bit codes; a glyph number 0 means that nothing is drawn. */
function readSegments(view: DataView, at: number, covered: Set<number>): void {
  const size = view.getUint16(at + 6)
  const ends = at + 14
  const starts = ends + size + 2
  const deltas = starts + size
  const ranges = deltas + size
  for (let offset = 0; offset < size; offset += 2) {
    const end = view.getUint16(ends + offset)
    const delta = view.getUint16(deltas + offset)
    const range = view.getUint16(ranges + offset)
    for (let code = view.getUint16(starts + offset); code <= end && code < 0xffff; code += 1) {
      const inRange = ranges + offset + range + (code - view.getUint16(starts + offset)) * 2
      const listed = range === 0 ? code : view.getUint16(inRange)
      if (listed !== 0 && ((listed + delta) & 0xffff) !== 0) covered.add(code)
    }
  }
}

function readGroups(view: DataView, at: number, covered: Set<number>): void {
  const count = view.getUint32(at + 12)
  for (let index = 0; index < count; index += 1) {
    const group = at + 16 + index * 12
    const end = view.getUint32(group + 4)
    for (let code = view.getUint32(group); code <= end; code += 1) covered.add(code)
  }
}
