import { seededChoice } from '../bench/measure.ts'

/** Somebody at the keys: sensible edits, slips, and things that break a text for a while. */
export interface Typist {
  /** The text after the next edit. */
  readonly edit: (text: string, earlier: readonly string[]) => string
}

const LETTERS = 'abcdefg 1.,:{}[]`#-\n'

const PIECES = [
  '```',
  '```yaml\n',
  '\n\n',
  '## New phase {#new}\n\n',
  '### Branch {#branch}\n\n',
  '1. Look at it.\n',
  '   ',
  '- a bullet\n',
  '{#x}',
  'sets: { power: live }',
  '---\n',
  ': ',
  '??',
  '<!--',
  '-->',
  '**',
  '[=x]',
  '(=position)',
  '| a | b |\n|---|---|\n| 1 | 2 |\n',
  '\u200b',
  '\r\n',
  'max 3 mm',
]

export function typist(seed: number): Typist {
  const choose = seededChoice(seed)
  const pick = <Item>(list: readonly Item[]): Item => list[choose(list.length)] as Item
  const lines = (text: string, change: (all: string[]) => void): string => {
    const all = text.split('\n')
    change(all)
    return all.join('\n')
  }
  const typed = (text: string, piece: string): string => {
    const at = choose(text.length + 1)
    return text.slice(0, at) + piece + text.slice(at)
  }
  const edits: readonly ((text: string, earlier: readonly string[]) => string)[] = [
    (text) => typed(text, pick([...LETTERS])),
    (text) => typed(text, pick([...LETTERS])),
    (text) => typed(text, pick(['word ', ' slowly', '12', 'e'])),
    (text) => {
      const at = choose(text.length)
      return text.slice(0, at) + text.slice(at + 1 + choose(4))
    },
    (text) => typed(text, pick(PIECES)),
    (text) => lines(text, (all) => all.splice(choose(all.length), 1 + choose(3))),
    (text) =>
      lines(text, (all) => {
        const from = choose(all.length)
        all.splice(choose(all.length), 0, ...all.slice(from, from + 1 + choose(6)))
      }),
    // A phase is moved, or one block of a step is.
    (text) => moved(text, /^(?=## )/m, choose),
    (text) => moved(text, /^(?=\d+\. )/m, choose),
    (text, earlier) => earlier.at(-1 - choose(Math.min(6, earlier.length))) ?? text,
    (text) => lines(text, (all) => all.splice(choose(all.length), 1, pick(all))),
  ]
  return { edit: (text, earlier) => pick(edits)(text, earlier) }
}

function moved(text: string, between: RegExp, choose: (below: number) => number): string {
  const [first = '', ...parts] = text.split(between)
  if (parts.length < 2) return text
  const [part = ''] = parts.splice(choose(parts.length), 1)
  parts.splice(choose(parts.length + 1), 0, part)
  return [first, ...parts].join('')
}
