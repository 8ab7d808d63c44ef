import { inflateSync } from 'node:zlib'

/** What stands on one page of a PDF as this project's typesetter writes it; points from the lower left corner. */
export interface PrintedPage {
  readonly runs: readonly PrintedRun[]
  readonly boxes: readonly PrintedBox[]
  /** Runs in the order of the file, one a line. */
  readonly text: string
  readonly width: number
  readonly height: number
}

export interface PrintedRun {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly size: number
  /** `SourceSans3-Bold` */
  readonly font: string
  /** As written: `0` is black, `1` white, or red, green and blue. */
  readonly colour: string
  /** What comes later lies above. */
  readonly order: number
}

export interface PrintedBox {
  readonly x: number
  /** Of its upper edge. */
  readonly y: number
  readonly width: number
  readonly height: number
  readonly fill: string
  /** Width of the line round it; 0 where there is none. */
  readonly line: number
  readonly order: number
}

/** Pages of a PDF (ISO 32000-1: objects 7.3.10, content streams 7.8.2, text 9.4, ToUnicode 9.10.3). */
export function printedPages(pdf: Uint8Array): readonly PrintedPage[] {
  const objects = new Map(
    [
      ...Buffer.from(pdf)
        .toString('latin1')
        .matchAll(/(?:^|\n)(\d+) 0 obj\n([\s\S]*?)\nendobj/g),
    ].map((match) => [match[1] ?? '', match[2] ?? '']),
  )
  return [...objects.values()]
    .filter((object) => /\/Type \/Page\s/.test(object))
    .map((page) => {
      const fonts = new Map(
        [...(/\/Font <<([\s\S]*?)>>/.exec(page)?.[1] ?? '').matchAll(/\/(f\d+) (\d+) 0 R/g)].map((match) => [
          match[1] ?? '',
          fontOf(objects, match[2] ?? ''),
        ]),
      )
      const [, width = '', height = ''] = /\/MediaBox \[0 0 ([\d.]+) ([\d.]+)\]/.exec(page) ?? []
      const content = streamOf(objects.get(/\/Contents (\d+) 0 R/.exec(page)?.[1] ?? '') ?? '')
      const { runs, boxes } = drawn(content, fonts)
      return { runs, boxes, text: runs.map((run) => run.text).join('\n'), width: Number(width), height: Number(height) }
    })
}

interface Font {
  readonly name: string
  readonly letters: ReadonlyMap<number, string>
}

function fontOf(objects: ReadonlyMap<string, string>, id: string): Font {
  const font = objects.get(id) ?? ''
  const map = streamOf(objects.get(/\/ToUnicode (\d+) 0 R/.exec(font)?.[1] ?? '') ?? '')
  const letters = new Map<number, string>()
  for (const block of map.matchAll(/beginbfchar([\s\S]*?)endbfchar/g))
    for (const [, code = '', text = ''] of (block[1] ?? '').matchAll(/<([0-9a-f]+)>\s*<([0-9a-f]+)>/gi))
      letters.set(Number.parseInt(code, 16), utf16(text))
  for (const block of map.matchAll(/beginbfrange([\s\S]*?)endbfrange/g))
    for (const [, from = '', to = '', text = ''] of (block[1] ?? '').matchAll(
      /<([0-9a-f]+)>\s*<([0-9a-f]+)>\s*<([0-9a-f]+)>/gi,
    ))
      for (let code = Number.parseInt(from, 16); code <= Number.parseInt(to, 16); code++)
        letters.set(code, String.fromCodePoint((utf16(text).codePointAt(0) ?? 0) + code - Number.parseInt(from, 16)))
  return { name: /\/BaseFont \/(?:[A-Z]+\+)?([\w-]+)/.exec(font)?.[1] ?? '', letters }
}

const utf16 = (hex: string): string => Buffer.from(hex, 'hex').swap16().toString('utf16le')

function streamOf(object: string): string {
  const from = /stream\r?\n/.exec(object)
  const length = Number(/\/Length (\d+)/.exec(object)?.[1] ?? 0)
  const start = from === null ? 0 : from.index + from[0].length
  const raw = object.slice(start, start + length)
  if (!object.includes('/FlateDecode')) return raw
  return inflateSync(Buffer.from(raw, 'latin1')).toString('latin1')
}

/** The part of the graphics state that is followed: place, scale, colour, line. */
interface State {
  readonly matrix: readonly number[]
  readonly colour: string
  readonly line: number
}

function drawn(content: string, fonts: ReadonlyMap<string, Font>) {
  const runs: PrintedRun[] = []
  const boxes: PrintedBox[] = []
  const stack: State[] = []
  let state: State = { matrix: [1, 0, 0, 1, 0, 0], colour: '0', line: 0 }
  let path: (readonly [number, number])[] = []
  let font: { readonly font: Font | undefined; readonly size: number } = { font: undefined, size: 0 }
  let inText = [1, 0, 0, 1, 0, 0] as readonly number[]
  for (const [order, line] of content.split('\n').entries()) {
    const words = line.trim().split(/\s+/)
    const operator = words.at(-1) ?? ''
    const numbers = words.slice(0, -1).map(Number)
    if (operator === 'q') stack.push(state)
    else if (operator === 'Q') state = stack.pop() ?? state
    else if (operator === 'cm') state = { ...state, matrix: product(numbers, state.matrix) }
    else if (operator === 'scn') state = { ...state, colour: words.slice(0, -1).join(' ') }
    else if (operator === 'w') state = { ...state, line: numbers[0] ?? 0 }
    else if (operator === 'm') path = [at(numbers, state.matrix)]
    else if (operator === 'l') path = [...path, at(numbers, state.matrix)]
    // A circle is four curves; its square covers what stands in it.
    else if (operator === 'c') path = [...path, at(numbers.slice(4), state.matrix)]
    else if (['B', 'S', 'f', 'f*', 'B*'].includes(operator)) {
      const box = boxAround(path)
      if (box)
        boxes.push({
          ...box,
          fill: operator === 'S' ? '' : state.colour,
          line: /[SB]/.test(operator) ? state.line : 0,
          order,
        })
      path = []
    } else if (operator === 'n') path = []
    else if (operator === 'Tf') font = { font: fonts.get((words[0] ?? '').slice(1)), size: numbers[1] ?? 0 }
    else if (operator === 'Tm') inText = product(numbers, state.matrix)
    else if (operator === 'TJ' || operator === 'Tj') {
      const [x, y] = at([0, 0], inText)
      const size = font.size * Math.abs(inText[3] ?? 1)
      runs.push({ text: shown(line, font.font), x, y, size, font: font.font?.name ?? '', colour: state.colour, order })
    }
  }
  return { runs, boxes }
}

/** Strings of two-byte codes between brackets, with their escapes. */
function shown(line: string, font: Font | undefined): string {
  const codes: number[] = []
  for (const [, inside = ''] of line.matchAll(/\(((?:\\[\s\S]|[^\\()])*)\)/g))
    for (const [whole, octal, letter] of inside.matchAll(/\\([0-7]{1,3})|\\([\s\S])|[\s\S]/g))
      codes.push(
        octal !== undefined
          ? Number.parseInt(octal, 8)
          : letter !== undefined
            ? ({ n: 10, r: 13, t: 9, b: 8, f: 12 }[letter] ?? letter.charCodeAt(0))
            : whole.charCodeAt(0),
      )
  const glyphs = codes.flatMap((code, index) => (index % 2 === 0 ? [code * 256 + (codes[index + 1] ?? 0)] : []))
  return glyphs.map((glyph) => font?.letters.get(glyph) ?? '').join('')
}

function product(a: readonly number[], b: readonly number[]): readonly number[] {
  const [a0 = 1, a1 = 0, a2 = 0, a3 = 1, a4 = 0, a5 = 0] = a
  const [b0 = 1, b1 = 0, b2 = 0, b3 = 1, b4 = 0, b5 = 0] = b
  return [
    a0 * b0 + a1 * b2,
    a0 * b1 + a1 * b3,
    a2 * b0 + a3 * b2,
    a2 * b1 + a3 * b3,
    a4 * b0 + a5 * b2 + b4,
    a4 * b1 + a5 * b3 + b5,
  ]
}

function at(
  point: readonly number[],
  [a = 1, b = 0, c = 0, d = 1, e = 0, f = 0]: readonly number[],
): readonly [number, number] {
  const [x = 0, y = 0] = point
  return [a * x + c * y + e, b * x + d * y + f]
}

function boxAround(path: readonly (readonly [number, number])[]) {
  // Lines and rectangles; a frame that is drawn as one shape with many corners covers nothing.
  if (path.length < 2 || path.length > 5) return null
  const xs = path.map(([x]) => x)
  const ys = path.map(([, y]) => y)
  const [x, y] = [Math.min(...xs), Math.max(...ys)]
  return { x, y, width: Math.max(...xs) - x, height: y - Math.min(...ys) }
}
