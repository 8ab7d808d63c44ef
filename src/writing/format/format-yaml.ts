import {
  type Document,
  isAlias,
  isCollection,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  parseDocument,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from 'yaml'
import { scanTokens } from '../../syntax/yaml/scan-tokens.ts'
import { unquotedWhereSafe } from './quotes.ts'

/**
 * The keys and values of a block in their usual layout: two blanks a level, one behind a colon, `{ a: b }` and `[a, b]`,
 * values of a table of one-line maps below one another, quotes only where YAML needs them, at most one blank line.
 * Order, words and remarks stay; so does what runs over several lines. Null where it is better left as it is.
 *
 * @param text lines that end in LF, without the indentation of the block
 */
export function formatYaml(text: string): string | null {
  if (/\t/.test(text) || hasRemarkBehindValue(text)) return null
  const document = parse(text)
  if (document === null || document.contents === null) return null
  const writing: Writing = { text, lines: text.split('\n'), out: [], done: 0 }
  if (isMap(document.contents)) writeMap(writing, document.contents, 0, '', false)
  else if (isSeq(document.contents)) writeList(writing, document.contents, 0, '')
  else return null
  flush(writing, writing.lines.length, 0)
  const formatted = `${withTables(tidy(writing.out)).join('\n')}\n`
  const after = parse(formatted)
  if (after === null || shape(after.contents) !== shape(document.contents)) return null
  return remarks(formatted) === remarks(text) ? formatted : null
}

function parse(text: string): Document.Parsed | null {
  const document = parseDocument(text, {
    version: '1.2',
    schema: 'failsafe',
    stringKeys: true,
    uniqueKeys: false,
    merge: false,
    prettyErrors: false,
    logLevel: 'silent',
  })
  return document.errors.length > 0 || document.warnings.length > 0 || hasMarks(document.contents) ? null : document
}

/** Anchors, aliases and tags: the language has none, and their finding says what to type. */
function hasMarks(node: unknown): boolean {
  if (node === null || node === undefined) return false
  if (isAlias(node)) return true
  const { anchor, tag } = node as { anchor?: string; tag?: string }
  if (anchor !== undefined || (tag !== undefined && !tag.startsWith('tag:yaml.org,2002:'))) return true
  if (isMap(node)) return node.items.some(({ key, value }) => hasMarks(key) || hasMarks(value))
  return isSeq(node) ? node.items.some(hasMarks) : false
}

function hasRemarkBehindValue(text: string): boolean {
  return scanTokens(text).some(
    ({ text: word, start, isScalar: isText }) =>
      !isText && word.startsWith('#') && text.slice(text.lastIndexOf('\n', start - 1) + 1, start).trim() !== '',
  )
}

/** Everything that a reader of YAML gets, in order. */
function shape(node: unknown): string {
  if (isMap(node)) return `{${node.items.map(({ key, value }) => `${shape(key)}:${shape(value)}`).join(',')}}`
  if (isSeq(node)) return `[${node.items.map(shape).join(',')}]`
  return isScalar(node) ? JSON.stringify(String(node.value ?? '')) : 'null'
}

const remarks = (text: string): string =>
  scanTokens(text)
    .filter(({ text: word, isScalar: isText }) => !isText && word.startsWith('#'))
    .map(({ text: word }) => word.trimEnd())
    .join('\n')

interface Line {
  readonly indent: number
  readonly text: string
  /** Where a value between braces begins in a line that is an entry of its own: `power: { … }`. */
  readonly table: number | null
  /** As typed, its blanks included. */
  readonly isVerbatim: boolean
}

interface Writing {
  readonly text: string
  readonly lines: readonly string[]
  readonly out: Line[]
  /** Lines of the source that are written already, with the remarks and blank lines among them. */
  done: number
}

const lineOf = (writing: Writing, offset: number): number => writing.text.slice(0, offset).split('\n').length - 1

/** Remarks and blank lines above a line of the source, as far in as what follows them. */
function flush(writing: Writing, line: number, indent: number): void {
  for (; writing.done < line; writing.done++) {
    const words = (writing.lines[writing.done] ?? '').trim()
    if (words === '' || words.startsWith('#'))
      writing.out.push({ indent: words === '' ? 0 : indent, text: words, table: null, isVerbatim: false })
  }
}

const rangeOf = (node: Node): readonly [number, number] => {
  const [start = 0, end = 0] = node.range ?? []
  return [start, end]
}

/**
 * @param lead what stands in front of the first entry on its line: the dash of a list
 * @param hasNames its keys are names below a key of the language, so that entries on one line each make a table
 */
function writeMap(writing: Writing, map: YAMLMap, indent: number, lead: string, hasNames: boolean): void {
  map.items.forEach((pair, index) =>
    writePair(writing, pair as Pair<Node, Node | null>, indent, index === 0 ? lead : '', hasNames),
  )
}

function writePair(
  writing: Writing,
  pair: Pair<Node, Node | null>,
  indent: number,
  lead: string,
  hasNames: boolean,
): void {
  const { key, value } = pair
  const [keyStart] = rangeOf(key)
  const line = lineOf(writing, keyStart)
  flush(writing, line, indent - lead.length)
  const head = `${lead}${written(writing, key, false)}:`
  writeBehind(writing, head, value, line, indent - lead.length, indent, hasNames)
}

function writeList(writing: Writing, list: YAMLSeq, indent: number, lead: string): void {
  list.items.forEach((item, index) => {
    const node = item as Node
    const before = index === 0 ? lead : ''
    const outer = indent - before.length
    const [start] = rangeOf(node)
    const line = lineOf(writing, start)
    if (isBlock(writing, node) && isMap(node)) writeMap(writing, node, indent + 2, `${before}- `, false)
    else if (isBlock(writing, node) && isSeq(node)) writeList(writing, node, indent + 2, `${before}- `)
    else {
      flush(writing, line, outer)
      writeBehind(writing, `${before}-`, node, line, outer, indent, false)
    }
  })
}

/** A value behind its key or dash, or on the lines below it. */
function writeBehind(
  writing: Writing,
  head: string,
  value: Node | null,
  line: number,
  outer: number,
  indent: number,
  hasNames: boolean,
): void {
  const push = (text: string, table: number | null = null) => {
    writing.out.push({ indent: outer, text, table, isVerbatim: false })
    writing.done = Math.max(writing.done, line + 1)
  }
  if (value === null || isNothing(value)) {
    push(head)
    return
  }
  if (isBlock(writing, value)) {
    push(head)
    if (isMap(value)) writeMap(writing, value, indent + 2, '', true)
    else writeList(writing, value as YAMLSeq, indent + 2, '')
    return
  }
  const [start, end] = rangeOf(value)
  const typed = writing.text.slice(start, end).replace(/\s+$/, '')
  if (!typed.includes('\n')) {
    const isTable = hasNames && isMap(value) && value.items.length > 0
    push(`${head} ${written(writing, value, false)}`, isTable ? head.length + 1 : null)
  } else pushVerbatim(writing, head, typed, lineOf(writing, start), line, outer)
}

/** What runs over several lines keeps its lines and moves as a whole. */
function pushVerbatim(
  writing: Writing,
  head: string,
  typed: string,
  startLine: number,
  line: number,
  outer: number,
): void {
  const [first = '', ...rest] = typed.split('\n')
  const by = outer - (writing.lines[line] ?? '').search(/\S|$/)
  const push = (text: string, indent: number, isVerbatim: boolean) =>
    writing.out.push({ indent, text, table: null, isVerbatim })
  if (startLine > line) {
    push(head, outer, false)
    push(first, Math.max(outer + 1, (writing.lines[startLine] ?? '').search(/\S|$/) + by), true)
  } else push(`${head} ${first}`, outer, true)
  for (const words of rest) {
    const blanks = words.search(/\S|$/)
    push(words.slice(blanks), words.trim() === '' ? 0 : Math.max(0, blanks + by), true)
  }
  writing.done = Math.max(writing.done, startLine + 1 + rest.length)
}

const isNothing = (node: Node): boolean => isScalar(node) && node.type === 'PLAIN' && (node.source ?? '') === ''

function isBlock(writing: Writing, node: Node): boolean {
  return isCollection(node) && !/[[{]/.test(writing.text[rangeOf(node)[0]] ?? '') && !node.flow
}

/** A key or a value on one line. */
function written(writing: Writing, node: Node | null, isInline: boolean): string {
  if (node === null) return ''
  const [start, end] = rangeOf(node)
  const typed = writing.text.slice(start, end).trim()
  if (isScalar(node)) return unquotedWhereSafe(typed, node as Scalar<string>, isInline)
  if (isSeq(node)) return `[${node.items.map((item) => written(writing, item as Node, true)).join(', ')}]`
  if (!isMap(node)) return typed
  const entries = node.items.map((pair) => writtenPair(writing, pair as Pair<Node, Node | null>)).join(', ')
  // In `[a: b]` the map has no braces of its own.
  if (!typed.startsWith('{')) return entries
  return entries === '' ? '{}' : `{ ${entries} }`
}

function writtenPair(writing: Writing, { key, value }: Pair<Node, Node | null>): string {
  const name = written(writing, key, true)
  if (value === null || isNothing(value)) {
    const behind = writing.text.slice(rangeOf(key)[1])
    return /^\s*:/.test(behind) ? `${name}:` : name
  }
  return `${name}: ${written(writing, value, true)}`
}

/** At most one blank line in a row, and none at either end. */
function tidy(lines: readonly Line[]): readonly Line[] {
  const isBlank = (line: Line | undefined) => line !== undefined && line.text === '' && !line.isVerbatim
  const kept = lines.filter((line, index) => !isBlank(line) || !(index === 0 || isBlank(lines[index - 1])))
  while (isBlank(kept.at(-1))) kept.pop()
  return kept
}

/** Neighbouring entries whose value stands between braces get these below one another. */
function withTables(lines: readonly Line[]): readonly string[] {
  const shown: string[] = []
  for (let from = 0; from < lines.length; ) {
    const first = lines[from]
    let to = from + 1
    if (first !== undefined && first.table !== null)
      while (to < lines.length && lines[to]?.table != null && lines[to]?.indent === first.indent) to++
    const group = lines.slice(from, to)
    const column = Math.max(...group.map(({ table }) => table ?? 0))
    for (const { indent, text, table } of group) {
      const padded = table === null ? text : text.slice(0, table).padEnd(column) + text.slice(table)
      shown.push(`${' '.repeat(text === '' ? 0 : indent)}${padded}`.trimEnd())
    }
    from = to
  }
  return shown
}
