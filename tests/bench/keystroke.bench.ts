import remarkParse from 'remark-parse'
import { unified } from 'unified'
import { type CompileMemory, compileProcedure, newMemory, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'
import { madeProcedure } from './made-procedures.ts'
import { seededChoice } from './measure.ts'

/*
 * From a keystroke to the findings, in a procedure of 2,000 lines: letters typed into an instruction, into a value of a block and
 * into prose, all over the text, one compile a letter. Processor time tells a slow program from a busy machine.
 */

const FILE = 'procedures/made/made.md'
/** Milliseconds. */
const TARGET = { median: 100, ninetyFifth: 200 }
const WORDS = 40

const library = openLibrary(mapLibrary({}))
const choose = seededChoice(97)

let text = madeProcedure(97, 76, 7)

interface Time {
  readonly clock: number
  readonly processor: number
}

function compiled(memory: CompileMemory | null): Time {
  const reader = mapLibrary({ [FILE]: text })
  return timed(() => compileProcedure(FILE, { ...library, reader }, memory).findings)
}

function timed(work: () => unknown): Time {
  const before = process.cpuUsage()
  const start = performance.now()
  work()
  const clock = performance.now() - start
  const { user, system } = process.cpuUsage(before)
  return { clock, processor: (user + system) / 1000 }
}

/** Types a word behind a match somewhere in the text, letter by letter. */
function type(word: string, behind: RegExp, memory: CompileMemory): readonly Time[] {
  const from = choose(Math.floor(text.length * 0.9))
  const found = new RegExp(behind, 'g')
  found.lastIndex = from
  const match = found.exec(text)
  if (match === null) return []
  let at = match.index + match[0].length
  return [...word].map((letter) => {
    text = text.slice(0, at) + letter + text.slice(at)
    at++
    return compiled(memory)
  })
}

const memory = newMemory()
compiled(memory)
const kinds = [
  { what: 'instruction', word: ' well', behind: /\n\d\. {2}\w+/ },
  { what: 'value', word: '12', behind: / (?:max|min|to) \d/ },
  { what: 'bullet or prose', word: ' soon', behind: /\n {4}- \w+|\n\n\w+/ },
]
// The engine compiles what runs often; these keystrokes are not counted.
for (let round = 0; round < WORDS / 4; round++) for (const { word, behind } of kinds) type(word, behind, memory)
const typed = kinds.map(({ what, word, behind }) => ({
  what,
  times: Array.from({ length: WORDS / kinds.length }, () => type(word, behind, memory)).flat(),
}))

const parser = unified().use(remarkParse).freeze()
const fresh = Array.from({ length: 5 }, () => compiled(null))
const bare = Array.from({ length: 5 }, () => timed(() => parser.parse(text)))

console.log(
  `${text.split('\n').length} lines; a target of ${TARGET.median} ms median and ${TARGET.ninetyFifth} ms for 95 of 100 on a quiet machine.\n`,
)
console.log('| what | keystrokes | median, ms | 95 % below, ms | processor median, ms | processor 95 %, ms |')
console.log('|---|---|---|---|---|---|')
for (const { what, times } of [
  ...typed,
  { what: 'all', times: typed.flatMap(({ times }) => times) },
  { what: 'fresh compile', times: fresh },
  { what: 'bare Markdown parse', times: bare },
]) {
  const figures = (['clock', 'processor'] as const).flatMap((key) =>
    [0.5, 0.95].map((share) =>
      shareOf(
        times.map((time) => time[key]),
        share,
      ).toFixed(0),
    ),
  )
  console.log(`| ${[what, times.length, ...figures].join(' | ')} |`)
}

function shareOf(values: readonly number[], share: number): number {
  const sorted = [...values].sort((a, b) => a - b)
  return sorted[Math.min(sorted.length - 1, Math.floor(sorted.length * share))] ?? Number.NaN
}
