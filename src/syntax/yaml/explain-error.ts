import type { YAMLError } from 'yaml'
import { reservedStart, splitSentence, tabIndent, unreadableBlock } from '../faults/faults.ts'
import { firstWords, placeOf, type Reading, report } from '../markdown/reading.ts'
import { quoted, quotedLine, splitLine } from './quoting.ts'
import type { YamlToken } from './scan-tokens.ts'
import { toSource, type YamlText, yamlLineAt, yamlLineText } from './yaml-text.ts'

/** Says in shop words what keeps a block from being read. */
export function explainError(reading: Reading, yaml: YamlText, tokens: readonly YamlToken[], error: YAMLError): void {
  const open = openBefore(tokens, error)
  if (open !== null) {
    reportLeftOpen(reading, yaml, open)
    return
  }
  const line = yamlLineAt(yaml, Math.min(error.pos[0], Math.max(0, yaml.text.length - 2)))
  const words = yamlLineText(yaml, line)
  const lineStart = yaml.lines[line]?.start ?? 0
  const indent = Math.max(0, words.search(/\S/))
  const whole = placeOf(reading, toSource(yaml, lineStart + indent), toSource(yaml, lineStart + words.trimEnd().length))
  const shown = firstWords(words)

  if (error.code === 'TAB_AS_INDENT') {
    report(reading, tabIndent, {
      at: placeOf(reading, toSource(yaml, lineStart), toSource(yaml, lineStart + indent)),
      message: `The line "${shown}" is indented with a tab; YAML counts spaces only.`,
      advice: 'Delete the tab and type spaces: two for each level.',
    })
    return
  }

  const glued = /^(\s*(?:- +)*[a-z][\w-]*:)(?=[^\s:/])/i.exec(words)?.[1]
  if (glued !== undefined && error.code !== 'BLOCK_IN_FLOW') {
    const behind = toSource(yaml, lineStart + glued.length)
    report(reading, unreadableBlock, {
      at: whole,
      message: `In "${shown}" a blank is missing behind the colon.`,
      advice: `Type ${glued.trim()} ${words.slice(glued.length).trim()}`,
      edit: { title: 'Add the blank', changes: [{ at: placeOf(reading, behind, behind), newText: ' ' }] },
    })
    return
  }

  const value = splitLine(words)
  if (value !== null && /: /.test(value.value) && !/^["'{[]/.test(value.value)) {
    reportSplit(reading, yaml, lineStart + value.at, value)
    return
  }
  if (error.code === 'BLOCK_IN_FLOW' && /: .*: /.test(words)) {
    report(reading, splitSentence, {
      at: whole,
      message: `In "${shown}" a second colon with a blank behind it splits a value.`,
      advice: 'Put the value with the colon in quotes, between its braces.',
    })
    return
  }
  if (value !== null && /^[@`%>|]/.test(value.value)) {
    const start = lineStart + value.at
    const at = placeOf(reading, toSource(yaml, start), toSource(yaml, start + value.value.length))
    report(reading, reservedStart, {
      at,
      message: `The value ${value.value} begins with ${value.value.charAt(0)}, which YAML keeps for itself.`,
      advice: `Put it in quotes: ${(value.head + quoted(value.value)).trim()}`,
      edit: { title: 'Put the value in quotes', changes: [{ at, newText: quoted(value.value) }] },
    })
    return
  }
  report(reading, unreadableBlock, { at: whole, ...explain(error, words, shown) })
}

/** The brace, bracket or quote that is still open where the parser gave up; null where the fault is another. */
function openBefore(tokens: readonly YamlToken[], error: YAMLError): YamlToken | null {
  if (error.code === 'MISSING_CHAR' && /quote/.test(error.message))
    return tokens.findLast((token) => /^["']/.test(token.text)) ?? null
  if (error.code !== 'BAD_INDENT' && error.code !== 'MISSING_CHAR') return null
  const open: YamlToken[] = []
  for (const token of tokens) {
    if (token.start >= error.pos[0]) break
    if (token.isScalar) continue
    if (token.text === '{' || token.text === '[') open.push(token)
    else if (token.text === '}' || token.text === ']') open.pop()
  }
  return open.at(-1) ?? null
}

const CLOSES: Readonly<Record<string, string>> = { '{': '}', '[': ']', '"': '"', "'": "'" }

function reportLeftOpen(reading: Reading, yaml: YamlText, open: YamlToken): void {
  const line = yamlLineAt(yaml, open.start)
  const words = yamlLineText(yaml, line)
  const lineEnd = (yaml.lines[line]?.start ?? 0) + words.trimEnd().length
  const mark = open.text.charAt(0)
  report(reading, unreadableBlock, {
    at: placeOf(reading, toSource(yaml, open.start), toSource(yaml, lineEnd)),
    message: `The ${mark} in "${firstWords(words)}" is opened and not closed.`,
    advice: `Type ${CLOSES[mark]} behind the value, on the same line.`,
  })
}

function reportSplit(
  reading: Reading,
  yaml: YamlText,
  start: number,
  value: { readonly head: string; readonly value: string },
): void {
  const at = placeOf(reading, toSource(yaml, start), toSource(yaml, start + value.value.length))
  report(reading, splitSentence, {
    at,
    message: `The colon in "${firstWords(value.value)}" has a blank behind it and would split the sentence.`,
    advice: `Put the sentence in quotes: ${(value.head + quoted(value.value)).trim()}`,
    edit: { title: 'Put the sentence in quotes', changes: [{ at, newText: quoted(value.value) }] },
  })
}

function explain(error: YAMLError, words: string, shown: string): { message: string; advice: string } {
  const inQuotes = quotedLine(words)
  switch (error.code) {
    case 'MISSING_CHAR':
      return {
        message: `"${shown}" is neither a key with a value nor the rest of the line above.`,
        advice: 'Type a key, a colon and a blank in front of it, or indent it further than the line it belongs to.',
      }
    case 'BAD_INDENT':
      return {
        message: `The line "${shown}" does not start in the column of the lines it belongs to.`,
        advice: 'Start keys that belong together in the same column.',
      }
    case 'MULTILINE_IMPLICIT_KEY':
    case 'BLOCK_AS_IMPLICIT_KEY':
    case 'BLOCK_IN_FLOW':
      return {
        message: `The line "${shown}" and the line after it are read as one: a colon and a blank are missing, or the indentation changes between them.`,
        advice: 'Type key, colon, blank, value on each line; start keys that belong together in the same column.',
      }
    case 'BAD_DQ_ESCAPE':
      return {
        message: `A \\ in double quotes stands for a special letter, and the one in "${shown}" is none.`,
        advice: "Use single quotes (') around the value instead.",
      }
    case 'KEY_OVER_1024_CHARS':
      return { message: 'A key is longer than 1024 letters.', advice: 'Put the text behind a short key.' }
    case 'NON_STRING_KEY':
      return {
        message: `In "${shown}" a list or map stands where a key should.`,
        advice: 'Type a plain word as the key.',
      }
    default:
      if (/^Unexpected ,/.test(error.message))
        return { message: `In "${shown}" nothing stands between two commas.`, advice: 'Delete one of the commas.' }
      if (/flow-(?:map|seq)-end/.test(error.message))
        return { message: `In "${shown}" a } or ] stands that nothing opens.`, advice: 'Delete it.' }
      if (/^[^#]*: - /.test(words))
        return {
          message: `In "${shown}" a list starts on the line of its key.`,
          advice: 'Put each item on a line of its own below the key, or write [one, two] behind it.',
        }
      return {
        message: `YAML cannot read "${shown}": something stands behind the end of a value.`,
        advice: inQuotes === null ? 'Put the whole value in quotes.' : `Put the whole value in quotes: ${inQuotes}`,
      }
  }
}
