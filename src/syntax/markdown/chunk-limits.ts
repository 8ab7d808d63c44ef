import { beyondLimits } from '../faults/faults.ts'
import { placeOf, type Reading, report } from './reading.ts'

// The Markdown parser needs more than linear time for some texts that no one types by hand. These limits are far above
// what a step, a block or the prose of a phase needs, and keep a damaged file from holding up the reader.

/** In UTF-16 units: a step, or the prose and block of a phase. */
const LONGEST_CHUNK = 100_000
const MOST_LINES = 3000
const LONGEST_LINE = 10_000
/** Lists in lists, quotes in quotes. */
const DEEPEST = 16
const WIDEST_INDENT = 100

/** Stars and underscores: words in bold or italics have two such runs each. */
const MOST_MARKS = 2000

/** One mark many times in a row. */
const LONG_RUN = /([*_`[\]!~<&\\])\1{59}/

/** True, and reported, where a text is longer or nested deeper than is read. */
export function isBeyondLimits(reading: Reading): boolean {
  const { text, lineStarts } = reading.source
  if (lineStarts.some((start, line) => isLineBeyondLimits(reading, start, lineStarts[line + 1] ?? text.length)))
    return true
  if (text.length > LONGEST_CHUNK || lineStarts.length > MOST_LINES) {
    report(reading, beyondLimits, {
      at: placeOf(reading, 0, 0),
      message: `From here, ${text.length} letters in ${lineStarts.length} lines stand without a heading or a step; at most ${LONGEST_CHUNK} letters and ${MOST_LINES} lines are read.`,
      advice: 'Divide the text with headings or steps.',
    })
    return true
  }
  const run = LONG_RUN.exec(text)
  if (run !== null) {
    report(reading, beyondLimits, {
      at: placeOf(reading, run.index, run.index + run[0].length),
      message: `The sign ${run[1]} stands here ${run[0].length} times or more in a row.`,
      advice: 'Delete the signs.',
    })
    return true
  }
  const marks = [...text.matchAll(/[*_]+/g)]
  if (marks.length > MOST_MARKS) {
    const start = marks[MOST_MARKS]?.index ?? 0
    report(reading, beyondLimits, {
      at: placeOf(reading, start, start + 1),
      message: `There are ${marks.length} stars and underscores here without a heading or a step between them; at most ${MOST_MARKS} are read.`,
      advice: 'Divide the text with headings or steps, or put less of it in bold.',
    })
    return true
  }
  return false
}

function isLineBeyondLimits(reading: Reading, start: number, end: number): boolean {
  if (end - start > LONGEST_LINE) {
    report(reading, beyondLimits, {
      at: placeOf(reading, start, start),
      message: `This line has ${end - start} letters; at most ${LONGEST_LINE} are read.`,
      advice: 'Divide it into several lines.',
    })
    return true
  }
  const line = reading.source.text.slice(start, Math.min(end, start + 400))
  const prefix = /^(?:[ \t]*(?:[-+*>]|\d{1,9}[.)])(?=[ \t>]))*[ \t]*/.exec(line)?.[0] ?? ''
  const marks = prefix.match(/[-+*>]|\d+[.)]/g)?.length ?? 0
  if (marks <= DEEPEST && prefix.length <= WIDEST_INDENT) return false
  report(reading, beyondLimits, {
    at: placeOf(reading, start, start + prefix.length),
    message: 'This line is nested deeper than any step or bullet can be.',
    advice: 'Start it further left, or divide the work into phases and steps.',
  })
  return true
}
