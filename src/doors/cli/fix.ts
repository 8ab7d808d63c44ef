import { resolve } from 'node:path'
import { replaceText } from '../../devices/replace-text.ts'
import { lineAndColumn, type SourceText } from '../../text/source-text.ts'
import { exitStatus } from './exit-status.ts'
import { findProcedures } from './find-procedures.ts'
import { type ChosenEdit, editsOfRound, replacedText, withChanges } from './fix-rounds.ts'
import { type LookedAt, lookAtProcedures } from './look-at-procedures.ts'
import type { Program } from './program.ts'
import { countInWords, type Format, hasError, procedures, reporterFor } from './report.ts'
import { withNumberChecked } from './same-document.ts'
import type { Surroundings } from './surroundings.ts'

export interface FixOptions {
  readonly format: Format
  /** Say what would be changed, and change nothing. */
  readonly dryRun: boolean
}

/** One change shows at most a few more, so many rounds mean that two changes undo one another. */
const mostRounds = 20

/**
 * `witnessmark check --fix`: makes the changes that findings carry, round by round, until none is left, and then tells
 * what still stands. All rounds are gone through before anything is written, so no file is ever left half mended.
 */
export function fix(
  typed: readonly string[],
  options: FixOptions,
  program: Program,
  surroundings: Surroundings,
): number {
  const { say, folder } = surroundings
  const found = findProcedures(typed, folder)
  for (const sentence of [...found.complaints, ...found.unread]) say(`${sentence}\n`)
  const mended = mendInMemory(found.files, program, folder)
  for (const line of mended.told) say(`${line}\n`)
  const unwritten = options.dryRun ? [] : write(mended, surroundings)
  const count = mended.told.length
  const made = options.dryRun ? 'would be made' : 'made'
  if (mended.wentOn) say(`After ${mostRounds} rounds there were still changes to make. Look at what stands now.\n`)

  const reporter = reporterFor(options.format, program, surroundings)
  const all: LookedAt[] = []
  for (const looked of mended.stands ?? lookAtProcedures(found.files, program, folder)) {
    const checked = withNumberChecked(looked, all)
    all.push(checked)
    reporter.add(checked)
    if (checked.breakdown !== null) say(`${checked.breakdown}\n`)
  }
  reporter.finish()
  const findings = countInWords(all.flatMap((looked) => looked.findings))
  if (all.length > 0)
    say(
      `${procedures(all.length)} checked: ${count === 1 ? '1 change' : `${count} changes`} ${made}, ${findings} found.\n`,
    )
  return exitStatus({
    wrongUse: found.complaints.length > 0,
    failed: found.unread.length > 0 || unwritten.length > 0 || all.some(hasError),
  })
}

interface Mended {
  /** Absolute path to text. */
  readonly texts: ReadonlyMap<string, string>
  /** The same files as they were read. */
  readonly before: ReadonlyMap<string, SourceText>
  /** A line for each change, in the order they were made. */
  readonly told: readonly string[]
  readonly wentOn: boolean
  /** What was found, where nothing was to be changed. */
  readonly stands: readonly LookedAt[] | null
}

function mendInMemory(files: readonly string[], program: Program, folder: string): Mended {
  const texts = new Map<string, string>()
  const before = new Map<string, SourceText>()
  const told: string[] = []
  let open = files
  for (let round = 1; round <= mostRounds; round++) {
    const all = [...lookAtProcedures(open, program, folder, texts)]
    const sources = new Map(all.flatMap((looked) => looked.sources).map((source) => [source.path, source]))
    const edits = editsOfRound(
      all.flatMap((looked) => looked.findings),
      sources,
    )
    if (edits.length === 0) return { texts, before, told, wentOn: false, stands: round === 1 ? all : null }
    told.push(...edits.map((chosen) => lineOf(chosen, sources)))
    const changed = withChanges(edits, sources)
    // A procedure is looked at again where any text that it rests on has changed.
    open = all
      .filter((looked) => looked.sources.some((source) => changed.has(source.path)))
      .map((looked) => resolve(folder, looked.file))
    for (const [file, text] of changed) {
      const path = resolve(folder, file)
      const source = sources.get(file)
      if (source !== undefined && !before.has(path)) before.set(path, source)
      texts.set(path, text)
    }
  }
  return { texts, before, told, wentOn: true, stands: null }
}

/** `procedures/belt.md:12 Write hard-hat: "hardhat" → "hard-hat"` */
function lineOf({ finding, edit }: ChosenEdit, sources: ReadonlyMap<string, SourceText>): string {
  const first = edit.changes[0]
  const source = sources.get(first?.at.file ?? '')
  const line = source === undefined || first === undefined ? '' : `:${lineAndColumn(source, first.at.start).line}`
  const words =
    first === undefined || edit.changes.length > 1 ? '' : changeInWords(replacedText(first, sources), first.newText)
  return `${first?.at.file ?? finding.at.file}${line} ${edit.title}${words}`
}

/** Nothing where a change is of blanks or of several lines: its title says it better. */
function changeInWords(old: string, typed: string): string {
  if (/[\r\n]/.test(old + typed) || old.trim() === '' || typed.trim() === '' || old.length + typed.length > 80)
    return ''
  return `: "${old}" → "${typed}"`
}

/** Writes what was mended; gives the files that could not be. */
function write({ texts, before }: Mended, { say }: Surroundings): readonly string[] {
  return [...texts].flatMap(([path, text]) => {
    const source = before.get(path)
    if (source === undefined || source.text === text) return []
    const answer = replaceText(path, source.text, text)
    if (answer.kind === 'written') return []
    say(
      answer.kind === 'changed'
        ? `${source.path}: somebody changed it in the meantime, so it was left as it is. Run this again.\n`
        : `${source.path} could not be written: ${answer.because}\n`,
    )
    return [source.path]
  })
}
