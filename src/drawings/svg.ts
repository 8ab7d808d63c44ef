/**
 * Drawings as SVG text: black lines on whatever is below them (`currentColor`), text as text, a title and a description for whoever does
 * not see it. No script, no style sheet, nothing from outside. The same data give the same bytes.
 */

/** A drawing, ready for page and print. */
export interface Drawing {
  /** Unique in its document; made of letters, figures, `-` and `_`. */
  readonly id: string
  readonly title: string
  /** What can be seen, in words. */
  readonly says: string
  readonly svg: string
}

export interface Sheet {
  readonly id: string
  readonly title: string
  readonly says: string
  /** In points of the print. */
  readonly width: number
  readonly height: number
  /** Elements one after the other; every text in them is escaped already. */
  readonly parts: readonly string[]
}

const fonts = "'Source Sans 3','DejaVu Sans',sans-serif"

export function drawingOf({ id, title, says, width, height, parts }: Sheet): Drawing {
  const [w, h] = [short(width), short(height)]
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${w} ${h}" width="${w}" height="${h}" role="img" aria-labelledby="${id}-t" aria-describedby="${id}-d" font-family="${fonts}" font-size="${SMALL}" fill="none" stroke="currentColor">`,
    `<title id="${id}-t">${escaped(title)}</title>`,
    `<desc id="${id}-d">${escaped(says)}</desc>`,
    ...parts.filter((part) => !isText(part)),
    // Above all lines, and looked at once: it is shorter so.
    '<g fill="currentColor" stroke="none">',
    ...parts.filter(isText),
    '</g></svg>',
  ].join('')
  return { id, title, says, svg }
}

const isText = (part: string): boolean => part.startsWith('<text')

/** Sizes of letters, in points of the print. Most are small, so that one is not said again. */
export const SIZE = 11
export const SMALL = 9.5

/** An id for use in SVG from the id of a step, phase or torque; two of them never become one. */
export function drawingId(kind: string, id: string): string {
  const safe = id.replace(
    /[^A-Za-z0-9-]/g,
    (letter) => `_${letter === '@' ? '' : (letter.codePointAt(0) ?? 0).toString(36)}_`,
  )
  return `${kind}-${safe}`
}

/** One decimal is a thirtieth of a millimetre in print. */
export function short(value: number): string {
  const rounded = Math.round(value * 10) / 10
  return String(rounded === 0 ? 0 : rounded).replace(/^(-?)0\./, '$1.')
}

export interface TextLook {
  readonly size?: number
  readonly at?: 'start' | 'middle' | 'end'
  readonly bold?: boolean
  /** Degrees, clockwise, about the point that it stands at. */
  readonly turn?: number
}

export function text(
  x: number,
  y: number,
  says: string,
  { size = SIZE, at = 'start', bold = false, turn }: TextLook = {},
) {
  if (says === '') return ''
  const look = [
    ...(size === SMALL ? [] : [` font-size="${size}"`]),
    ...(at === 'start' ? [] : [` text-anchor="${at}"`]),
    ...(bold ? [' font-weight="700"'] : []),
    ...(turn === undefined ? [] : [` transform="rotate(${short(turn)} ${short(x)} ${short(y)})"`]),
  ].join('')
  return `<text x="${short(x)}" y="${short(y)}"${look}>${escaped(says)}</text>`
}

export interface LineLook {
  readonly width?: number
  readonly dashed?: boolean
  readonly fill?: string
}

/** Lines and outlines. `d` is the path data of SVG; `way` below helps to write it. */
export function path(d: string, { width = 1, dashed = false, fill = 'none' }: LineLook = {}): string {
  return `<path d="${d}"${fill === 'none' ? '' : ` fill="${fill}"`}${width === 1 ? '' : ` stroke-width="${width}"`}${dashed ? ' stroke-dasharray="4 3"' : ''}/>`
}

export interface Point {
  readonly x: number
  readonly y: number
}

/** Path data through the points. */
export function way(points: readonly Point[], isClosed = false): string {
  return (
    points.map(({ x, y }, index) => `${index === 0 ? 'M' : 'L'}${short(x)} ${short(y)}`).join('') +
    (isClosed ? 'Z' : '')
  )
}

export function box(x: number, y: number, width: number, height: number): string {
  return `M${short(x)} ${short(y)}h${short(width)}v${short(height)}h${short(-width)}z`
}

export function round({ x, y }: Point, radius: number): string {
  return `M${short(x - radius)} ${short(y)}a${short(radius)} ${short(radius)} 0 1 0 ${short(2 * radius)} 0a${short(radius)} ${short(radius)} 0 1 0 ${short(-2 * radius)} 0z`
}

/** The head of an arrow that comes from `from` and ends at `to`, as path data to be filled. */
export function arrowHead(from: Point, to: Point, size = 6): string {
  const long = Math.hypot(to.x - from.x, to.y - from.y) || 1
  const [ux, uy] = [(to.x - from.x) / long, (to.y - from.y) / long]
  const back = { x: to.x - ux * size, y: to.y - uy * size }
  const side = size * 0.45
  return way(
    [to, { x: back.x - uy * side, y: back.y + ux * side }, { x: back.x + uy * side, y: back.y - ux * side }],
    true,
  )
}

/** Solid shapes: `d` filled without an outline. */
export function solid(d: string): string {
  return `<path d="${d}" fill="currentColor" stroke="none"/>`
}

/** Slanting lines to fill a shape with: its definition, and what to write as the fill. Ids are the drawing's own. */
export function hatch(id: string): { readonly definition: string; readonly fill: string } {
  return {
    definition: `<defs><pattern id="${id}-h" width="5" height="5" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V5" stroke="currentColor" stroke-width="1.6"/></pattern></defs>`,
    fill: `url(#${id}-h)`,
  }
}

export function escaped(says: string): string {
  return (
    says
      .replaceAll('&', '&amp;')
      .replaceAll('<', '&lt;')
      .replaceAll('>', '&gt;')
      .replaceAll('"', '&quot;')
      // Letters that no XML may hold.
      // biome-ignore lint/suspicious/noControlCharactersInRegex: they are what is taken out
      .replace(/[\u0000-\u0008\u000b\u000c\u000e-\u001f\ufffe\uffff]/g, '')
  )
}
