import { frontMatterBelowTop, frontMatterMissing, frontMatterOpen } from './faults/faults.ts'
import { firstWords, placeOf, type Reading, report } from './markdown/reading.ts'
import type { WrittenBlock } from './written.ts'
import { readYaml } from './yaml/read-yaml.ts'
import { yamlTextOf } from './yaml/yaml-text.ts'

interface FrontMatter {
  readonly block: WrittenBlock | null
  /** Offset of the first line below it. */
  readonly end: number
}

/** The map between two lines of three dashes at the top of a file. */
export function readFrontMatter(reading: Reading): FrontMatter {
  const { text } = reading.source
  const top = text.startsWith('\uFEFF') ? 1 : 0
  const start = findOpening(text, top)
  if (start === null) {
    report(reading, frontMatterMissing, {
      at: placeOf(reading, top, top),
      message: 'The file does not begin with front matter.',
      advice: 'Type --- on the first line, then number:, title:, revision: and the other keys, then --- again.',
    })
    return { block: null, end: top }
  }
  if (start > top) {
    const above = text.slice(top, start)
    report(reading, frontMatterBelowTop, {
      at: placeOf(reading, start, start + 3),
      message: 'The front matter does not start on the first line.',
      advice:
        above.trim() === ''
          ? 'Delete the blank lines above the first ---.'
          : `Move "${firstWords(above)}" below the second ---.`,
      ...(above.trim() === ''
        ? {
            edit: { title: 'Delete the blank lines', changes: [{ at: placeOf(reading, top, start), newText: '' }] },
          }
        : {}),
    })
  }
  const contentStart = start + (OPENING.exec(text.slice(start, start + 200))?.[0].length ?? 0)
  const closing = findClosing(text, contentStart)
  if (closing === null) {
    report(reading, frontMatterOpen, {
      at: placeOf(reading, start, start + 3),
      message: 'The front matter that begins here has no closing line.',
      advice: 'Type --- on a line of its own below its last key.',
    })
    return { block: null, end: endOfKeys(text, contentStart) }
  }
  const value = readYaml(reading, yamlTextOf(reading.source, contentStart, closing.start))
  const at = placeOf(reading, start, closing.start + 3)
  const block = value?.kind === 'map' ? { map: value, at } : null
  if (block === null && (value !== null || closing.start === contentStart))
    report(reading, frontMatterMissing, {
      at,
      message: 'The front matter holds no keys and values.',
      advice: 'Type number:, title:, revision: and the other keys between the two lines.',
    })
  return { block, end: closing.end }
}

const OPENING = /^---[ \t]*(?:\r\n|\n|\r)/

/** On the first line; or further down, before any heading of a phase, with a key on the line below it. */
function findOpening(text: string, top: number): number | null {
  const blanks = /^\s*/.exec(text.slice(top))?.[0].length ?? 0
  if (OPENING.test(text.slice(top + blanks, top + blanks + 200))) return top + blanks
  const firstPhase = /^##/m.exec(text)?.index ?? text.length
  const late = /^---[ \t]*(?:\r\n|\n|\r)[a-z][\w-]*:/m.exec(text.slice(0, firstPhase))
  return late === null ? null : late.index
}

/** `# note` among the keys: what follows is keys, or the closing line. A heading has prose or a fence below it. */
const COMMENT_AMONG_KEYS =
  /^#(?:.*(?:\r\n|\n|\r))(?:[ \t]*(?:#.*)?(?:\r\n|\n|\r))*(?:[A-Za-z][\w-]*[ \t]*:(?=\s|$)|[ \t]+\S|- |---[ \t]*(?:[\r\n]|$))/

/** The next line of three dashes; a heading or fence before it means that it was left open. */
function findClosing(text: string, from: number): { readonly start: number; readonly end: number } | null {
  const line = /(?<=^|[\r\n])(?:(---)[ \t]*(?:\r\n|\n|\r|$)|#{1,6}[ \t](?=\S)|`{3,}|~{3,})/g
  line.lastIndex = from
  for (let match = line.exec(text); match !== null; match = line.exec(text)) {
    if (match[1] !== undefined) return { start: match.index, end: match.index + match[0].length }
    if (!isComment(text, match.index)) return null
  }
  return null
}

/** Only so far ahead: a comment of more lines is taken for what it may be, a heading. */
const isComment = (text: string, at: number): boolean => COMMENT_AMONG_KEYS.test(text.slice(at, at + 2000))

/** Where the document begins below front matter that was left open: at the first blank line or heading. */
function endOfKeys(text: string, from: number): number {
  const line = /(?<=^|[\r\n])(?=[ \t]*(?:\r\n|\n|\r|$)|#{1,6}[ \t]|`{3,}|~{3,})/g
  line.lastIndex = from
  for (let match = line.exec(text); match !== null; match = line.exec(text)) {
    if (!isComment(text, match.index)) return match.index
    line.lastIndex = match.index + 1
  }
  return text.length
}
