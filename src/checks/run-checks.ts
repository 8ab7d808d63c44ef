import type { Finding } from '../findings/finding.ts'
import { found } from '../findings/finding.ts'
import type { Check, CheckSubject } from './check.ts'
import { crashed } from './frame-kinds.ts'

/**
 * Everything the checks find, in the order of the text, each finding once.
 * A step of a repeat is checked in every position; the author wrote it once and is told once.
 * A check that throws must not vanish in silence: it becomes an error, which blocks output.
 */
export function runChecks(subject: CheckSubject, checks: readonly Check[]): readonly Finding[] {
  return withoutDoubles(checks.flatMap((check) => runOne(check, subject)).sort(inOrderOfText))
}

function runOne(check: Check, subject: CheckSubject): Finding[] {
  try {
    return Array.from(check.run(subject), (fault) => found(check, fault))
  } catch (problem) {
    const said = problem instanceof Error ? problem.message : String(problem)
    return [
      found(crashed, {
        at: { file: subject.procedure.file, start: 0, end: 0 },
        message: `The check ${check.name} broke off: ${said}`,
        advice:
          'This is a fault of the program, not of your text. Report it with this file; until then nothing is written.',
      }),
    ]
  }
}

/** By file, then place, then name and words, so that the same text always gives the same list. */
export function inOrderOfText(a: Finding, b: Finding): number {
  return (
    compare(a.at.file, b.at.file) ||
    a.at.start - b.at.start ||
    a.at.end - b.at.end ||
    compare(a.name, b.name) ||
    compare(a.message, b.message)
  )
}

/** By code units: the same on every machine, whatever its language. */
const compare = (a: string, b: string): number => (a < b ? -1 : a > b ? 1 : 0)

function withoutDoubles(sorted: readonly Finding[]): readonly Finding[] {
  return sorted.filter((finding, index) => {
    const last = sorted[index - 1]
    return last === undefined || inOrderOfText(last, finding) !== 0
  })
}
