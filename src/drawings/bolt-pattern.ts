import { cutToFit, linesToFit, textWidth } from './letter-widths.ts'
import {
  arrowHead,
  type Drawing,
  drawingOf,
  type Point,
  path,
  round,
  SIZE,
  SMALL,
  short,
  solid,
  text,
  way,
} from './svg.ts'

/** Bolts and the order in which they are tightened. Bolts are numbered from 1 as `layout` says. */
export interface BoltPattern {
  readonly id: string
  /** What is tightened: `cover bolts`. */
  readonly name: string
  /** Around a circle clockwise from the top; in a rectangle row by row from the top left. */
  readonly layout:
    | { readonly kind: 'circle' }
    | { readonly kind: 'rectangle'; readonly rows: number; readonly columns: number }
  /** Bolt numbers, the first to be tightened first; each bolt once. */
  readonly order: readonly number[]
  /** Short: `30 %`, `release`. */
  readonly passes: readonly string[]
}

const width = 440
/** With more bolts than this the numbers stand beside them, and turns only in the list. */
const mostWithTurns = 24
const mostBolts = 64
const boltsToJoin = 4

/** Null where there is nothing to be seen: fewer than three bolts, or too many for the numbers to be read. */
export function boltPatternDrawing(pattern: BoltPattern): Drawing | null {
  const { id, name, order, layout } = pattern
  const count = order.length
  if (count < 3 || count > mostBolts) return null
  const bolts = layout.kind === 'circle' ? circlePlaces(count) : rectanglePlaces(count, layout)
  const told = orderText(order)
  return drawingOf({
    id,
    title: `Order of tightening: ${name}`,
    says: `${count} bolts ${layout.kind === 'circle' ? 'in a circle, numbered clockwise from the top' : `in ${layout.rows} rows of ${layout.columns}, numbered row by row from the top left`}. Tighten in the order ${told}.${pattern.passes.length > 1 ? ` Passes: ${pattern.passes.join(', then ')}.` : ''}`,
    width,
    height: Math.max(bolts.height, listHeight(pattern, bolts.width)),
    parts: [...bolts.shapes, ...boltMarks(bolts, order), ...joinedBolts(bolts, pattern), ...list(pattern, bolts.width)],
  })
}

function orderText(order: readonly number[]): string {
  return order.join(', ')
}

interface Places {
  readonly width: number
  readonly height: number
  readonly radius: number
  /** By bolt, the first is bolt 1. */
  readonly places: readonly Place[]
  /** What stands around the bolts. */
  readonly shapes: readonly string[]
}

interface Place extends Point {
  /** Where the turn stands, or the number where the bolt is too small for it. */
  readonly beside: Point
  readonly anchor: 'start' | 'middle' | 'end'
}

function circlePlaces(count: number): Places {
  const isSmall = count > mostWithTurns
  const ring = isSmall ? 116 : count <= 8 ? 78 : count <= 14 ? 92 : 108
  const radius = isSmall ? 4 : count <= 14 ? 14 : 11
  const reach = ring + (isSmall ? 22 : radius + 18)
  const centre = { x: reach + (isSmall ? 2 : 14), y: reach }
  const angleOf = (index: number): number => (index / count) * 2 * Math.PI - Math.PI / 2
  const at = (angle: number, distance: number): Point => ({
    x: centre.x + Math.cos(angle) * distance,
    y: centre.y + Math.sin(angle) * distance,
  })
  const places = Array.from({ length: count }, (_, index): Place => {
    const angle = angleOf(index)
    // Beside small bolts numbers stand outside and inside in turn: twice the room.
    const beside = isSmall ? ring + (index % 2 === 0 ? 14 : -14) : ring + radius + 4
    const away = Math.cos(angle)
    const anchor = isSmall || Math.abs(away) < 0.2 ? 'middle' : away > 0 ? 'start' : 'end'
    const lift = anchor === 'middle' && !isSmall ? Math.sin(angle) * 7 : 0
    const place = at(angle, beside)
    return { ...at(angle, ring), beside: { x: place.x, y: place.y + lift }, anchor }
  })
  const [from, to] = [angleOf(0) + 0.16, angleOf(0) + 0.95]
  const inner = ring - (isSmall ? 32 : radius + 12)
  const [start, end] = [at(from, inner), at(to, inner)]
  const arc = `M${short(start.x)} ${short(start.y)}A${short(inner)} ${short(inner)} 0 0 1 ${short(end.x)} ${short(end.y)}`
  return {
    width: 2 * centre.x,
    height: 2 * reach,
    radius,
    places,
    shapes: [
      path(isSmall ? round(centre, ring) : between(count, ring, radius / ring, at), { width: 0.6 }),
      path(arc, { width: 1.4 }),
      solid(arrowHead(at(to - 0.1, inner), at(to + 0.06, inner), 8)),
    ],
  }
}

/** The circle from bolt to bolt, and none of it through their numbers. `gap` is the angle that a bolt covers on either side. */
function between(count: number, ring: number, gap: number, at: (angle: number, distance: number) => Point): string {
  const step = (2 * Math.PI) / count
  return Array.from({ length: count }, (_, index) => {
    const [from, to] = [at(index * step - Math.PI / 2 + gap, ring), at((index + 1) * step - Math.PI / 2 - gap, ring)]
    return `M${short(from.x)} ${short(from.y)}A${short(ring)} ${short(ring)} 0 0 1 ${short(to.x)} ${short(to.y)}`
  }).join('')
}

function rectanglePlaces(
  count: number,
  { rows, columns }: { readonly rows: number; readonly columns: number },
): Places {
  const step = { x: Math.min(46, 250 / columns), y: Math.min(46, Math.max(24, 280 / rows)) }
  const radius = Math.min(13, step.x / 2 - 2)
  const places = Array.from({ length: count }, (_, index): Place => {
    const x = step.x * ((index % columns) + 0.5) + 6
    const y = step.y * Math.floor(index / columns) + radius + 6
    return { x, y, beside: { x, y: y + radius + 7 }, anchor: 'middle' }
  })
  const size = { x: step.x * columns + 12, y: step.y * rows + 12 }
  return {
    width: size.x,
    height: size.y,
    radius,
    places,
    shapes: [path(`M1 1h${short(size.x - 2)}v${short(size.y - 2)}H1z`, { width: 0.6 })],
  }
}

function boltMarks({ places, radius }: Places, order: readonly number[]): readonly string[] {
  const isSmall = places.length > mostWithTurns && radius < 8
  const size = isSmall ? SMALL : radius >= 13 ? 14 : SIZE
  const heads = path(places.map((place) => round(place, radius)).join(''), { width: 1.6 })
  const first = places[0]
  const marks = places.flatMap((place, index) => {
    const number = String(index + 1)
    const turn = order.indexOf(index + 1) + 1
    if (isSmall) return [text(place.beside.x, place.beside.y + 3.4, number, { size, at: 'middle', bold: turn === 1 })]
    return [
      text(place.x, place.y + size * 0.36, number, { size, at: 'middle', bold: true }),
      ...(places.length <= mostWithTurns
        ? [text(place.beside.x, place.beside.y + 3.4, ordinal(turn), { size: SMALL, at: place.anchor })]
        : []),
    ]
  })
  return [heads, ...(isSmall && first ? [solid(round(first, radius))] : []), ...marks]
}

/** The first turns as arrows from bolt to bolt, so that the eye has the crosswise way. */
function joinedBolts({ places, radius }: Places, { layout, order }: BoltPattern): readonly string[] {
  const isAround = order.every((bolt, index) => bolt === index + 1)
  if (layout.kind !== 'circle' || isAround || places.length > mostWithTurns) return []
  const lines = order.slice(0, boltsToJoin).flatMap((bolt, index) => {
    const [from, to] = [places[(order[index - 1] ?? 0) - 1], places[bolt - 1]]
    if (!from || !to) return []
    const long = Math.hypot(to.x - from.x, to.y - from.y)
    const along = (distance: number): Point => ({
      x: from.x + ((to.x - from.x) * distance) / long,
      y: from.y + ((to.y - from.y) * distance) / long,
    })
    const [start, end] = [along(radius + 3), along(long - radius - 3)]
    return [{ line: way([start, end]), head: arrowHead(start, end, 7) }]
  })
  return [
    path(lines.map(({ line }) => line).join(''), { width: 0.8, dashed: true }),
    solid(lines.map(({ head }) => head).join('')),
  ]
}

interface Line {
  readonly says: string
  readonly size: number
  readonly bold: boolean
  readonly above: number
}

function listLines({ order, passes, layout }: BoltPattern, left: number): readonly Line[] {
  const room = width - left
  const line = (says: string, size = SIZE, bold = false, above = 15): Line => ({ says, size, bold, above })
  const numbers = rowsOf(order, room, order.length > 36 ? SIZE : 13)
  const isLong = order.length > 36
  return [
    line('Order', SIZE, true, 12),
    ...numbers.map((row) => line(row, isLong ? SIZE : 13, true, isLong ? 14 : 17)),
    ...(passes.length > 1 ? [line('Passes, all bolts each', SMALL, false, 20)] : []),
    ...(passes.length > 1
      ? linesToFit(passes.map((pass) => pass.replace(' %', '\u00a0%')).join(' → '), SIZE, room, 4, true).map((says) =>
          line(says, SIZE, true),
        )
      : []),
    ...linesToFit(keyText(layout, order.length), SMALL, room, 6).map((says, index) =>
      line(says, SMALL, false, index === 0 ? 22 : 12.5),
    ),
  ]
}

function keyText(layout: BoltPattern['layout'], count: number): string {
  const numbers =
    layout.kind === 'circle' ? 'Bolts are numbered clockwise: mark bolt 1.' : 'Bolts are numbered row by row.'
  return count <= mostWithTurns ? `${numbers} Beside each bolt is its turn. Not to scale.` : `${numbers} Not to scale.`
}

function rowsOf(order: readonly number[], room: number, size: number): readonly string[] {
  const rows: string[] = []
  let row = ''
  order.forEach((bolt, index) => {
    const piece = index === order.length - 1 ? `${bolt}` : `${bolt} –`
    const longer = row === '' ? piece : `${row} ${piece}`
    if (row !== '' && textWidth(longer, size, true) > room) {
      rows.push(row)
      row = piece
    } else row = longer
  })
  return [...rows, row]
}

function list(pattern: BoltPattern, from: number): readonly string[] {
  const left = from + 18
  let y = 0
  return listLines(pattern, left).map(({ says, size, bold, above }) => {
    y += above
    return text(left, y, cutToFit(says, size, width - left, bold), { size, bold })
  })
}

function listHeight(pattern: BoltPattern, from: number): number {
  return listLines(pattern, from + 18).reduce((sum, { above }) => sum + above, 6)
}

/** 1st, 2nd, 3rd, 4th, 11th, 21st. */
export function ordinal(turn: number): string {
  const tens = turn % 100
  if (tens >= 11 && tens <= 13) return `${turn}th`
  return `${turn}${['th', 'st', 'nd', 'rd'][turn % 10] ?? 'th'}`
}
