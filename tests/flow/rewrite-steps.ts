/** A step of an ordered list as it is written: its line, its block and what else is indented below it. */
export interface WrittenPiece {
  /** Without its number: `Fit your own lock. {#lock}\n   …`. */
  readonly body: string
  readonly from: number
  readonly to: number
  /** Which list of the text it stands in. */
  readonly list: number
}

const STEP = /^\d+\. [^\n]*\n(?:(?: {3}[^\n]*|[ \t]*)\n(?= {3}|[ \t]*\n {3}))*(?: {3}[^\n]*\n)*/gm

/** Every step of a procedure's text, in order; headings and unindented lines part the lists. */
export function stepsIn(text: string): readonly WrittenPiece[] {
  let list = 0
  let end = -1
  return [...text.matchAll(STEP)].map((match) => {
    if (match.index !== end) list++
    end = match.index + match[0].length
    return { body: match[0].replace(/^\d+\. /, ''), from: match.index, to: end, list }
  })
}

/** The text with other steps in its lists, numbered anew; an empty list is not allowed to be left. */
export function withSteps(text: string, change: (steps: readonly WrittenPiece[]) => readonly WrittenPiece[]): string {
  const lists = new Map<number, WrittenPiece[]>()
  for (const step of stepsIn(text)) lists.set(step.list, [...(lists.get(step.list) ?? []), step])
  let result = text
  for (const steps of [...lists.values()].reverse()) {
    const from = steps[0]?.from ?? 0
    const to = steps.at(-1)?.to ?? 0
    const written = change(steps).map((step, index) => `${index + 1}. ${step.body}`)
    result = result.slice(0, from) + written.join('') + result.slice(to)
  }
  return result
}

const isNamed = (step: WrittenPiece, id: string): boolean => step.body.split('\n')[0]?.includes(`{#${id}}`) ?? false

export function stepWithout(text: string, id: string): string {
  return withSteps(text, (steps) => steps.filter((step) => !isNamed(step, id)))
}

/** Two steps of one list in each other's place. */
export function stepsSwapped(text: string, first: string, second: string): string {
  return withSteps(text, (steps) => {
    const one = steps.find((step) => isNamed(step, first))
    const other = steps.find((step) => isNamed(step, second))
    if (one === undefined || other === undefined) return steps
    return steps.map((step) => (step === one ? other : step === other ? one : step))
  })
}

/** A key of a step's block as it is written, with what is indented below it. */
const keyLines = (key: string): RegExp => new RegExp(`^ {3}${key}:[^\\n]*\\n(?: {4,}[^\\n]*\\n)*`, 'm')

export function hasKey(step: WrittenPiece, key: string): boolean {
  return blockOf(step.body).match(keyLines(key)) !== null
}

/** The step without that key; without a block where none of its keys is left. */
export function withoutKey(step: WrittenPiece, key: string): WrittenPiece {
  const block = blockOf(step.body)
  const rest = block.replace(keyLines(key), '')
  return { ...step, body: step.body.replace(block, rest === '   ```yaml\n   ```\n' ? '' : rest) }
}

function blockOf(body: string): string {
  return /^ {3}```yaml\n[\s\S]*?^ {3}```\n/m.exec(body)?.[0] ?? ''
}
