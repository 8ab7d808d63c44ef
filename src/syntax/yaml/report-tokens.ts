import { alias, cutOffText, documentMarker, droppedTag, unusableKey } from '../faults/faults.ts'
import { firstWords, placeOf, type Reading, report } from '../markdown/reading.ts'
import { quoted, quotedLine } from './quoting.ts'
import type { YamlToken } from './scan-tokens.ts'
import { toSource, type YamlText, yamlLineAt, yamlLineText } from './yaml-text.ts'

/** Lines (counted from 0) that already have a finding, so that nothing is said twice. */
export interface ReportedLines {
  readonly lines: ReadonlySet<number>
}

/** Reports what YAML gives a meaning of its own although the author only wrote a value. */
export function reportTokens(reading: Reading, yaml: YamlText, tokens: readonly YamlToken[]): ReportedLines {
  const lines = new Set<number>()
  tokens.forEach((token, index) => {
    if (token.isScalar) return
    const line = yamlLineAt(yaml, token.start)
    const say = sayerFor(token, yaml, tokens, index)
    if (say === null) return
    lines.add(line)
    say(reading)
  })
  return { lines }
}

type Sayer = (reading: Reading) => void

function sayerFor(token: YamlToken, yaml: YamlText, tokens: readonly YamlToken[], index: number): Sayer | null {
  const at = (reading: Reading) =>
    placeOf(reading, toSource(yaml, token.start), toSource(yaml, token.start + token.text.length))
  const line = yamlLineText(yaml, yamlLineAt(yaml, token.start))
  const first = token.text.charAt(0)

  if (first === '#') {
    const column = token.start - (yaml.lines[yamlLineAt(yaml, token.start)]?.start ?? 0)
    if (line.slice(0, column).trim() === '') return null
    return (reading) => reportCutOff(reading, yaml, tokens, index)
  }
  if (first === '&' || (first === '*' && token.text.length > 0)) {
    const what = first === '&' ? 'names the value for use elsewhere' : 'stands for a value named elsewhere'
    return (reading) =>
      report(reading, alias, {
        at: at(reading),
        message: `${quoted(token.text)} begins with ${first}, which in YAML ${what}; the language does not have this.`,
        advice: orElse(quotedLine(line), 'Write the value out, or put it in quotes.'),
      })
  }
  if (first === '!') {
    return (reading) =>
      report(reading, droppedTag, {
        at: at(reading),
        message: `${quoted(token.text)} begins with !, and YAML would drop it.`,
        advice: orElse(quotedLine(line), 'Put the whole value in quotes.'),
      })
  }
  if (token.text === '?') {
    return (reading) =>
      report(reading, unusableKey, {
        at: at(reading),
        message: 'A ? with a blank behind it starts a key of an unusual form.',
        advice: 'Type the key, a colon and a blank, then the value. For a missing value type ??.',
      })
  }
  if (token.text === '---' || token.text === '...' || first === '%') {
    return (reading) =>
      report(reading, documentMarker, {
        at: at(reading),
        message: `The line "${firstWords(token.text)}" ends the block early: what stands below it would be dropped.`,
        advice: 'Delete the line.',
      })
  }
  return null
}

function orElse(line: string | null, otherwise: string): string {
  return line === null ? otherwise : `Put the value in quotes: ${line}`
}

/**
 *     bolt: 24 × #4 UNC      the value would be "24 ×"
 *     bolt: #4 UNC           the value would be nothing
 */
function reportCutOff(reading: Reading, yaml: YamlText, tokens: readonly YamlToken[], index: number): void {
  const comment = tokens[index]
  if (comment === undefined) return
  const line = yamlLineAt(yaml, comment.start)
  const lineStart = yaml.lines[line]?.start ?? 0
  const words = yamlLineText(yaml, line)
  const before = words.slice(0, comment.start - lineStart).trimEnd()
  const at = placeOf(reading, toSource(yaml, comment.start), toSource(yaml, comment.start + comment.text.length))
  const message = `"${firstWords(comment.text)}" would be cut off: behind a blank, # starts a remark.`

  const value = valueStart(tokens, index, lineStart)
  const isBlockHead = before.endsWith(':') && hasNestedLines(yaml, line)
  if (value === null || isBlockHead) {
    report(reading, cutOffText, {
      at,
      message,
      advice:
        'If it is a remark for yourself, put it on a line of its own above. If it is part of the value, put the value in quotes.',
    })
    return
  }
  const whole = yaml.text.slice(value, comment.start + comment.text.length).trimEnd()
  report(reading, cutOffText, {
    at,
    message,
    advice: `Put the value in quotes: ${(words.slice(0, value - lineStart) + quoted(whole)).trim()}`,
    edit: {
      title: 'Put the value in quotes',
      changes: [
        { at: placeOf(reading, toSource(yaml, value), toSource(yaml, value + whole.length)), newText: quoted(whole) },
      ],
    },
  })
}

/** Where the value in front of a comment begins: after its key or dash on the same line. Null where it is no plain value. */
function valueStart(tokens: readonly YamlToken[], index: number, lineStart: number): number | null {
  const comment = tokens[index]
  let scalar: YamlToken | null = null
  for (let back = index - 1; back >= 0; back--) {
    const token = tokens[back]
    if (token === undefined || token.start < lineStart) return null
    if (token.text.trim() === '') continue
    if (token.isScalar) {
      if (scalar !== null || /^["']/.test(token.text)) return null
      scalar = token
      continue
    }
    if (token.text === ':' || token.text === '-') return scalar?.start ?? comment?.start ?? null
    return null
  }
  return null
}

function hasNestedLines(yaml: YamlText, line: number): boolean {
  const indent = yamlLineText(yaml, line).search(/\S/)
  for (let next = line + 1; next < yaml.lines.length; next++) {
    const words = yamlLineText(yaml, next)
    if (words.trim() === '') continue
    const nextIndent = words.search(/\S/)
    return nextIndent > indent || (nextIndent === indent && words.trimStart().startsWith('- '))
  }
  return false
}
