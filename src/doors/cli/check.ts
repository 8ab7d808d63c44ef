import { exitStatus } from './exit-status.ts'
import { findProcedures } from './find-procedures.ts'
import { type LookedAt, lookAtProcedures } from './look-at-procedures.ts'
import type { Program } from './program.ts'
import { countInWords, type Format, hasError, procedures, reporterFor } from './report.ts'
import { withNumberChecked } from './same-document.ts'
import type { Surroundings } from './surroundings.ts'

/** `witnessmark check`: findings to standard output, one closing sentence to standard error. */
export function check(typed: readonly string[], format: Format, program: Program, surroundings: Surroundings): number {
  const found = findProcedures(typed, surroundings.folder)
  for (const sentence of [...found.complaints, ...found.unread]) surroundings.say(`${sentence}\n`)
  const reporter = reporterFor(format, program, surroundings)
  const all: LookedAt[] = []
  for (const looked of lookAtProcedures(found.files, program, surroundings.folder)) {
    const checked = withNumberChecked(looked, all)
    all.push(checked)
    reporter.add(checked)
    if (checked.breakdown !== null) surroundings.say(`${checked.breakdown}\n`)
  }
  reporter.finish()
  if (all.length > 0)
    surroundings.say(
      `${checkedInWords(all)} checked: ${countInWords(all.flatMap((looked) => looked.findings))} found.\n`,
    )
  return exitStatus({ wrongUse: found.complaints.length > 0, failed: found.unread.length > 0 || all.some(hasError) })
}

function checkedInWords(all: readonly LookedAt[]): string {
  const checked = all.filter((looked) => looked.breakdown === null).length
  return checked === all.length ? procedures(checked) : `${checked} of ${procedures(all.length)}`
}
