import remarkParse from 'remark-parse'
import { unified } from 'unified'
import { parse } from 'yaml'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'
import { madeProcedure, shapes } from './made-procedures.ts'

/*
 * A full check of a procedure against what the two parsers alone need for it: `unified().use(remarkParse).parse` of the whole text,
 * and `yaml` of its blocks. Every text is made once and checked once; nothing is kept from one to the next but the engine's own code
 * and the opened library. Both sides are timed in turn on the same text.
 */

const FILE = 'procedures/made/made.md'
const AIM = 1.5
/** Procedures of two to four phases, each pair of neighbours another shape. */
const SHAPES = Array.from({ length: shapes.length * 2 }, (_, index) => ({
  first: index % shapes.length,
  count: 2 + Math.floor(index / shapes.length) * 2,
}))
const WARM_UP = 2
const ROUNDS = 6

const library = openLibrary(mapLibrary({}))
const parser = unified().use(remarkParse).freeze()

interface Pair {
  readonly check: number
  readonly bare: number
}

let seed = 1
let kept: unknown = null
const pairs = SHAPES.map((): Pair[] => [])
for (let round = -WARM_UP; round < ROUNDS; round++)
  for (const [index, { first, count }] of SHAPES.entries()) {
    const text = madeProcedure(seed++, count, first)
    const blocks = blocksOf(text)
    const reader = mapLibrary({ [FILE]: text })
    const check = (): unknown => compileProcedure(FILE, { ...library, reader }).findings
    const bare = (): unknown => [parser.parse(text), blocks.map((block) => parse(block))]
    // Who goes first changes from round to round: the second finds the processor's caches warm.
    const times =
      round % 2 === 0 ? { check: timed(check), bare: timed(bare) } : { bare: timed(bare), check: timed(check) }
    if (round >= 0) pairs[index]?.push(times)
  }
if (kept === null) throw new Error('nothing was checked')

const rows = pairs.map((times, index) => {
  const check = median(times.map((pair) => pair.check))
  const bare = median(times.map((pair) => pair.bare))
  return { shape: SHAPES[index], check, bare, ratio: median(times.map((pair) => pair.check / pair.bare)) }
})
const ratios = rows.map(({ ratio }) => ratio)
console.log(
  '| shapes | checks | check, ms (median) | parsers alone, ms (median) | ratio (median) | least | most | aim |',
)
console.log('|---|---|---|---|---|---|---|---|')
console.log(
  `| ${[
    rows.length,
    rows.length * ROUNDS,
    median(rows.map(({ check }) => check)).toFixed(1),
    median(rows.map(({ bare }) => bare)).toFixed(1),
    median(ratios).toFixed(2),
    Math.min(...ratios).toFixed(2),
    Math.max(...ratios).toFixed(2),
    `${AIM}${median(ratios) <= AIM ? '' : ' MISSED'}`,
  ].join(' | ')} |`,
)

/** The front matter, and every block without the blanks in front of its lines. */
function blocksOf(text: string): readonly string[] {
  const front = /^---\n([\s\S]*?)\n---\n/.exec(text)?.[1] ?? ''
  const blocks = [...text.matchAll(/^( *)```yaml\n([\s\S]*?)^ *```$/gm)].map(([, blanks = '', inside = '']) =>
    inside.replace(new RegExp(`^${blanks}`, 'gm'), ''),
  )
  return [front, ...blocks]
}

function timed(work: () => unknown): number {
  const start = performance.now()
  kept = work()
  return performance.now() - start
}

function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.floor(sorted.length / 2)] ?? Number.NaN
}
