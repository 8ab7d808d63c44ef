import type { BlockAround } from './block-around.ts'
import { linesOf } from './block-around.ts'

/** Where in the keys of a block an offset stands, told from what stands before it: the text may be half typed. */
export interface PlaceInYaml {
  /** Keys above, the outermost first; `-` for an item of a list. */
  readonly path: readonly string[]
  /** Whether a key or a value is typed here; before a colon is seen it may still become either. */
  readonly slot: 'key' | 'value' | 'either'
  /** What is typed so far in this slot. */
  readonly typed: string
  /** Where the slot's text begins. */
  readonly start: number
  /** Between braces or brackets, where a comma ends the value. */
  readonly isInline: boolean
  /** Between quotes. */
  readonly quote: '"' | "'" | null
  /** Keys that stand in the same map already, above and below. */
  readonly siblings: readonly string[]
}

interface Level {
  readonly indent: number
  readonly key: string
}

/** @returns null in a comment */
export function placeInYaml(text: string, block: BlockAround, offset: number): PlaceInYaml | null {
  const before = text.slice(block.start, offset)
  const levels: Level[] = []
  let inline: InlineState | null = null
  let last: LineState | null = null
  for (const line of linesOf(before)) {
    const start = block.start + line.start
    if (inline !== null) {
      inline = readInline(line.words, start, inline)
      if (inline.frames.length > 0) {
        last = null
        continue
      }
      inline = null
      last = { start: start + line.words.length, typed: '', slot: 'value', isComment: false }
      continue
    }
    last = readLine(line.words, start, levels)
    if (last.slot !== 'key' && /^[[{]/.test(last.typed)) {
      inline = readInline(last.typed, last.start, { frames: [], typedFrom: last.start, typed: '', quote: null })
      if (inline.frames.length === 0) inline = null
    }
  }
  if (inline !== null) return inlinePlace(inline, levels)
  if (last === null || last.isComment) return null
  const quoted = /^(["'])/.exec(last.typed)?.[1] as '"' | "'" | undefined
  const skip = quoted === undefined ? 0 : 1
  return {
    path: levels.map(({ key }) => key),
    slot: last.slot,
    typed: last.typed.slice(skip),
    start: last.start + skip,
    isInline: false,
    quote: quoted ?? null,
    siblings: siblingsAround(text, block, offset),
  }
}

interface LineState {
  readonly start: number
  readonly typed: string
  readonly slot: 'key' | 'value' | 'either'
  readonly isComment: boolean
}

/** One line outside braces: leaves in `levels` what it stands below, its own key included where it has one. */
function readLine(words: string, start: number, levels: Level[]): LineState {
  let column = words.search(/\S|$/)
  const content = words.slice(column)
  if (content.startsWith('#')) return { start: start + column, typed: '', slot: 'value', isComment: true }
  const isEmpty = content === ''
  while (levels.length > 0 && (levels.at(-1)?.indent ?? 0) >= column && !keepsList(levels.at(-1), content, column))
    levels.pop()
  let rest = content
  for (let dash = /^-(?:\s+|$)/.exec(rest); dash !== null; dash = /^-(?:\s+|$)/.exec(rest)) {
    while (levels.at(-1)?.key === '-' && (levels.at(-1)?.indent ?? 0) >= column) levels.pop()
    levels.push({ indent: column, key: '-' })
    column += dash[0].length
    rest = rest.slice(dash[0].length)
  }
  const entry = /^("[^"]*"|'[^']*'|[^\s:'"{}[\],#][^:{}[\]]*?)\s*:(?:\s+|$)/.exec(rest)
  if (entry === null) return { start: start + column, typed: rest, slot: isEmpty ? 'key' : 'either', isComment: false }
  const key = (entry[1] ?? '').replace(/^["']|["']$/g, '')
  levels.push({ indent: column, key })
  return {
    start: start + column + entry[0].length,
    typed: rest.slice(entry[0].length),
    slot: 'value',
    isComment: false,
  }
}

/** A list may stand as far left as its key: `key:` and below it `- item`. */
function keepsList(level: Level | undefined, content: string, column: number): boolean {
  return level !== undefined && level.key !== '-' && level.indent === column && /^-(?:\s|$)/.test(content)
}

interface Frame {
  readonly is: 'map' | 'list'
  key: string | null
  readonly keys: string[]
}

interface InlineState {
  readonly frames: readonly Frame[]
  readonly typed: string
  readonly typedFrom: number
  readonly quote: '"' | "'" | null
}

/** Goes on through a line between braces and brackets. */
function readInline(words: string, start: number, state: InlineState): InlineState {
  const frames = state.frames.map((frame) => ({ ...frame, keys: [...frame.keys] }))
  let { typed, typedFrom, quote } = state
  if (state.frames.length > 0 && quote === null) {
    typed = ''
    typedFrom = start
  }
  const begin = (at: number) => {
    typed = ''
    typedFrom = at
  }
  for (let index = 0; index < words.length; index++) {
    const letter = words[index] ?? ''
    const frame = frames.at(-1)
    if (quote !== null) {
      if (letter === quote) quote = null
      typed += letter
    } else if (letter === '{' || letter === '[') {
      frames.push({ is: letter === '{' ? 'map' : 'list', key: null, keys: [] })
      begin(start + index + 1)
    } else if (letter === '}' || letter === ']') {
      frames.pop()
      begin(start + index + 1)
      if (frames.length === 0) return { frames, typed, typedFrom, quote }
    } else if (letter === ',') {
      if (frame) frame.key = null
      begin(start + index + 1)
    } else if (letter === ':' && frame !== undefined && frame.key === null && /\s|$/.test(words[index + 1] ?? ' ')) {
      frame.key = typed.trim().replace(/^["']|["']$/g, '')
      frame.keys.push(frame.key)
      begin(start + index + 1)
    } else {
      if (typed.trim() === '' && (letter === '"' || letter === "'")) quote = letter
      typed += letter
    }
  }
  return { frames, typed, typedFrom, quote }
}

function inlinePlace({ frames, typed, typedFrom, quote }: InlineState, levels: readonly Level[]): PlaceInYaml {
  const path = levels.map(({ key }) => key)
  for (const frame of frames) {
    if (frame.is === 'list') path.push('-')
    if (frame.key !== null) path.push(frame.key)
  }
  const innermost = frames.at(-1)
  const blanks = /^\s*/.exec(typed)?.[0].length ?? 0
  const skip = blanks + (quote === null ? 0 : 1)
  return {
    path,
    slot: innermost?.key != null || innermost?.is === 'list' ? 'value' : 'key',
    typed: typed.slice(skip),
    start: typedFrom + skip,
    isInline: true,
    quote,
    siblings: innermost?.keys ?? [],
  }
}

/** Keys of the same indentation around a line, up and down to the first line that stands further left. */
function siblingsAround(text: string, block: BlockAround, offset: number): readonly string[] {
  const lines = [...linesOf(text.slice(block.start, block.end))]
  const here = lines.findIndex((line) => block.start + line.end >= offset)
  const words = lines[here]?.words ?? ''
  const own = words.trim() === '' ? offset - block.start - (lines[here]?.start ?? 0) : indentOf(words)
  const found: string[] = []
  for (const step of [-1, 1])
    for (let at = here + step; at >= 0 && at < lines.length; at += step) {
      const line = lines[at]?.words ?? ''
      if (line.trim() === '') continue
      const indent = indentOf(line)
      const key = /^\s*(?:- +)*("[^"]*"|'[^']*'|[^\s:#][^:]*?)\s*:(?:\s|$)/.exec(line)?.[1]
      if (indent === own && key !== undefined) found.push(key.replace(/^["']|["']$/g, ''))
      if (indent < own || (step === -1 && /^\s*-\s/.test(line) && indent === own)) break
      if (step === 1 && /^\s*-\s/.test(line)) break
    }
  return found
}

/** Where the keys of a line begin: dashes count as blanks. */
function indentOf(line: string): number {
  return /^\s*(?:- +)*/.exec(line)?.[0].length ?? 0
}
