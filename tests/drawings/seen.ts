import { textWidth } from '../../src/drawings/letter-widths.ts'

/** What stands in an SVG of ours, read back from its text alone. */
export interface SeenText {
  readonly says: string
  readonly x: number
  readonly y: number
  readonly size: number
  readonly bold: boolean
  readonly box: Box
}

export interface Box {
  readonly left: number
  readonly right: number
  readonly top: number
  readonly bottom: number
}

const attribute = (tag: string, name: string): string | undefined => new RegExp(` ${name}="([^"]*)"`).exec(tag)?.[1]

export function sizeOf(svg: string): { readonly width: number; readonly height: number } {
  const [, width, height] = /viewBox="0 0 ([\d.]+) ([\d.]+)"/.exec(svg) ?? []
  return { width: Number(width), height: Number(height) }
}

export function textsIn(svg: string): readonly SeenText[] {
  const own = Number(attribute(/<svg[^>]*>/.exec(svg)?.[0] ?? '', 'font-size'))
  return [...svg.matchAll(/(<text[^>]*>)([^<]*)<\/text>/g)].map(([, tag = '', content = '']) => {
    const says = unescaped(content)
    const [x, y, size] = [
      Number(attribute(tag, 'x')),
      Number(attribute(tag, 'y')),
      Number(attribute(tag, 'font-size') ?? own),
    ]
    const bold = tag.includes('font-weight')
    const long = textWidth(says, size, bold)
    const anchor = attribute(tag, 'text-anchor') ?? 'start'
    const left = anchor === 'middle' ? x - long / 2 : anchor === 'end' ? x - long : x
    return { says, x, y, size, bold, box: { left, right: left + long, top: y - size * 0.74, bottom: y + size * 0.2 } }
  })
}

function unescaped(text: string): string {
  return text.replaceAll('&lt;', '<').replaceAll('&gt;', '>').replaceAll('&quot;', '"').replaceAll('&amp;', '&')
}

/** Pairs of texts that lie on one another. */
export function overlaps(svg: string): readonly string[] {
  const texts = textsIn(svg)
  return texts.flatMap((one, index) =>
    texts.slice(index + 1).flatMap((other) => {
      const [a, b] = [one.box, other.box]
      const isApart =
        a.right <= b.left + 0.5 || b.right <= a.left + 0.5 || a.bottom <= b.top + 0.5 || b.bottom <= a.top + 0.5
      return isApart ? [] : [`${one.says} | ${other.says}`]
    }),
  )
}

/** Texts and lines that leave the sheet. Arcs and curves count with the points that they are drawn through. */
export function outside(svg: string): readonly string[] {
  const { width, height } = sizeOf(svg)
  const leaves = ({ left, right, top, bottom }: Box): boolean =>
    left < -0.5 || top < -0.5 || right > width + 0.5 || bottom > height + 0.5
  const shapes = svg.replace(/<defs>.*?<\/defs>/g, '')
  return [
    ...textsIn(svg)
      .filter(({ box }) => leaves(box))
      .map(({ says }) => says),
    ...[...shapes.matchAll(/ d="([^"]*)"/g)].flatMap(([, d = '']) =>
      pointsOf(d)
        .filter(({ x, y }) => leaves({ left: x, right: x, top: y, bottom: y }))
        .map(({ x, y }) => `${x} ${y} in ${d.slice(0, 60)}`),
    ),
  ]
}

/** The points that a path goes through, by SVG 1.1, 8.3. */
export function pointsOf(d: string): readonly { readonly x: number; readonly y: number }[] {
  const points: { x: number; y: number }[] = []
  let [x, y, startX, startY] = [0, 0, 0, 0]
  for (const [, letter = '', rest = ''] of d.matchAll(/([MLHVAZmlhvaz])([^MLHVAZmlhvaz]*)/g)) {
    const numbers = [...rest.matchAll(/-?(?:\d+\.?\d*|\.\d+)/g)].map(([text]) => Number(text))
    const step = { M: 2, L: 2, H: 1, V: 1, A: 7, Z: 0 }[letter.toUpperCase()] ?? 0
    const isRelative = letter !== letter.toUpperCase()
    for (let from = 0; step > 0 && from < numbers.length; from += step) {
      const [a = 0, b = 0] = numbers.slice(from + step - Math.min(step, 2), from + step)
      const [dx, dy] = isRelative ? [x, y] : [0, 0]
      if (letter.toUpperCase() === 'H') x = a + dx
      else if (letter.toUpperCase() === 'V') y = a + dy
      else [x, y] = [a + dx, b + dy]
      if (letter.toUpperCase() === 'M' && from === 0) [startX, startY] = [x, y]
      points.push({ x, y })
    }
    if (step === 0) [x, y] = [startX, startY]
  }
  return points
}

/** What is wrong with it as XML 1.0 and as one of our drawings; empty where nothing is. */
export function faultsOf(svg: string): readonly string[] {
  const faults: string[] = []
  const open: string[] = []
  const ids: string[] = []
  const tag = /<(\/?)([a-zA-Z]+)((?: [a-zA-Z:-]+="[^"<]*")*)(\/?)>/y
  let at = 0
  while (at < svg.length) {
    if (svg[at] !== '<') {
      const end = svg.indexOf('<', at)
      const between = svg.slice(at, end === -1 ? undefined : end)
      if (/&(?!(?:amp|lt|gt|quot);)|>/.test(between)) faults.push(`a sign that is not escaped in ${between}`)
      at += between.length
      continue
    }
    tag.lastIndex = at
    const found = tag.exec(svg)
    if (!found) return [...faults, `no tag at ${svg.slice(at, at + 40)}`]
    const [whole, isEnd, name = '', attributes = '', isEmpty] = found
    if (isEnd) {
      if (open.pop() !== name) faults.push(`</${name}> closes nothing`)
    } else {
      ids.push(...[...attributes.matchAll(/ id="([^"]*)"/g)].map(([, id = '']) => id))
      const names = [...attributes.matchAll(/ ([a-zA-Z:-]+)=/g)].map(([, each]) => each)
      if (new Set(names).size < names.length) faults.push(`an attribute twice in ${whole}`)
      if (
        / on[a-z]+=| style=| href=/.test(attributes) ||
        ['script', 'style', 'image', 'foreignObject', 'a', 'use'].includes(name)
      )
        faults.push(`${whole} does not belong in a drawing`)
      if (!isEmpty) open.push(name)
    }
    at += whole.length
  }
  if (open.length > 0) faults.push(`not closed: ${open.join()}`)
  if (new Set(ids).size < ids.length) faults.push('an id twice')
  const named = [...svg.matchAll(/url\(#([^)]*)\)|aria-[a-z]+="([^"]*)"/g)].map(([, one, other]) => one ?? other ?? '')
  faults.push(...named.filter((id) => !ids.includes(id)).map((id) => `${id} is nowhere`))
  if (!/^<svg [^>]*role="img"[^>]*><title id="[^"]*">[^<]+<\/title><desc id="[^"]*">[^<]+<\/desc>/.test(svg))
    faults.push('no title and description')
  if (/NaN|Infinity|undefined|null/.test(svg)) faults.push('a figure that is none')
  return faults
}
