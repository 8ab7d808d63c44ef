import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { removeBuild, removeLeftovers, type WriteAnswer, writeFile, writeFolder } from '../../devices/write-output.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { documentFiles, documentFolder } from './document-folder.ts'
import { exitStatus } from './exit-status.ts'
import { findProcedures } from './find-procedures.ts'
import { type LookedAt, lookAtProcedures } from './look-at-procedures.ts'
import type { Paper, Program } from './program.ts'
import { countInWords, type Format, hasError, procedures, reporterFor } from './report.ts'
import { isSameDocument, withNumberChecked } from './same-document.ts'
import { shownPath } from './shown-path.ts'
import { buildsOf, standingBuilds } from './standing-builds.ts'
import type { Surroundings } from './surroundings.ts'

export interface BuildOptions {
  readonly format: Format
  /** Whether drafts are written too. */
  readonly draft: boolean
  /** Output folder, relative to where the command runs. */
  readonly out: string
  /** Null: what the library says, else A4. */
  readonly paper: Paper | null
}

/** What one build works with. */
interface Job {
  readonly options: BuildOptions
  readonly program: Program
  readonly outFolder: string
  readonly shown: (path: string) => string
  readonly say: (sentence: string) => void
}

/**
 * `witnessmark build`: checks every procedure, then writes those without an error, one folder a document, and the index.
 * Where a procedure has an error, what an earlier build wrote from it is taken away: nobody must print it by mistake.
 */
export async function build(
  typed: readonly string[],
  options: BuildOptions,
  program: Program,
  surroundings: Surroundings,
): Promise<number> {
  const outFolder = resolve(surroundings.folder, options.out)
  const job: Job = {
    options,
    program,
    outFolder,
    shown: (path) => shownPath(path, surroundings.folder),
    say: (sentence) => surroundings.say(`${sentence}\n`),
  }
  const found = findProcedures(typed, surroundings.folder)
  for (const sentence of [...found.complaints, ...found.unread]) job.say(sentence)
  const reporter = reporterFor(options.format, program, surroundings)
  const all: LookedAt[] = []
  for (const looked of lookAtProcedures(found.files, program, surroundings.folder)) {
    const checked = withNumberChecked(looked, all)
    all.push(checked)
    reporter.add(checked)
  }
  reporter.finish()
  if (all.length === 0) return exitStatus({ wrongUse: found.complaints.length > 0, failed: true })

  removeLeftovers(outFolder, surroundings.now())
  let written = 0
  let failed = found.unread.length > 0
  for (const looked of all) {
    const outcome = await buildOne(looked, all, job)
    if (outcome.written) written++
    if (!outcome.whole) failed = true
  }
  const index = writeIndex(job)
  if (!index) failed = true
  const findings = countInWords(all.flatMap((looked) => looked.findings))
  job.say(`${written} of ${procedures(all.length)} written to ${job.shown(outFolder)}. Found: ${findings}.`)
  if (written > 0 && index) job.say(`Open ${job.shown(join(outFolder, 'index.html'))} first.`)
  return exitStatus({ wrongUse: found.complaints.length > 0, failed })
}

interface BuiltOne {
  readonly written: boolean
  /** All of it, with nothing missing. */
  readonly whole: boolean
}

async function buildOne(looked: LookedAt, all: readonly LookedAt[], job: Job): Promise<BuiltOne> {
  const { stepFile } = looked
  if (stepFile === null || hasError(looked)) {
    job.say(looked.breakdown ?? `${looked.file}: ${inTheWay(looked)}, so nothing of it was written.`)
    return notWritten(looked, job)
  }
  if (stepFile.document.status === 'draft' && !job.options.draft) {
    job.say(`${looked.file}: a draft, so nothing of it was written. With --draft it is written, marked NOT FOR USE.`)
    return { ...notWritten(looked, job), whole: true }
  }
  const twin = all.find((other) => other !== looked && isSameDocument(other, looked))
  if (twin !== undefined) {
    job.say(`${looked.file}: ${twin.file} carries the same number and revision, so neither of them was written.`)
    return notWritten(looked, job)
  }
  try {
    return await writeDocument(looked, stepFile, job)
  } catch (error) {
    const reason = error instanceof Error ? error.message.split('\n')[0] : String(error)
    job.say(
      `${looked.file}: witnessmark itself failed while making the outputs, so nothing of it was written (${reason}). This is a fault of the program: please report it together with the file.`,
    )
    return notWritten(looked, job)
  }
}

function inTheWay(looked: LookedAt): string {
  if (looked.findings.some((finding) => finding.severity === 'error')) return countInWords(looked.findings)
  return `its library has ${looked.libraryErrors === 1 ? 'an error' : `${looked.libraryErrors} errors`}`
}

async function writeDocument(looked: LookedAt, stepFile: StepFile, job: Job): Promise<BuiltOne> {
  const name = documentFolder(stepFile.document)
  if (name === null) {
    const { number, revision } = stepFile.document
    job.say(
      `${looked.file}: number “${number}” with revision “${revision}” cannot name a folder, so nothing of it was written.`,
    )
    return { written: false, whole: false }
  }
  const made = await job.program.makeOutputs(stepFile, job.options.paper ?? looked.paper ?? 'a4')
  const folder = join(job.outFolder, name)
  const answer = writeFolder(folder, made.files, documentFiles)
  if (answer.kind === 'failed') {
    job.say(`${looked.file}: ${notWrittenSentence(answer, job)}`)
    return { written: false, whole: false }
  }
  job.say(`${looked.file} → ${job.shown(folder)} (${made.files.map((file) => file.name).join(', ')})`)
  for (const complaint of made.complaints) job.say(`${looked.file}: ${complaint}`)
  return { written: true, whole: made.complaints.length === 0 }
}

/** Takes away what an earlier build wrote from a procedure that may not be built now. */
function notWritten(looked: LookedAt, job: Job): BuiltOne {
  for (const { folder } of buildsOf(looked, standingBuilds(job.outFolder, job.program))) {
    const path = join(job.outFolder, folder)
    const answer = removeBuild(path, documentFiles)
    if (answer.kind === 'failed')
      job.say(
        `${looked.file}: the older build in ${job.shown(path)} could not be taken away: ${answer.because} Do not print it.`,
      )
    else job.say(`${looked.file}: the older build in ${job.shown(path)} was taken away, so that nobody works from it.`)
  }
  return { written: false, whole: false }
}

/** The index lists every document that stands in the output folder, also those of other runs. False where it could not be written. */
function writeIndex(job: Job): boolean {
  const path = join(job.outFolder, 'index.html')
  const standing = standingBuilds(job.outFolder, job.program)
  if (standing.length === 0 && !existsSync(path)) return true
  const answer = writeFile(path, job.program.makeIndex(standing))
  if (answer.kind === 'failed') job.say(notWrittenSentence(answer, job))
  return answer.kind === 'written'
}

function notWrittenSentence(answer: Extract<WriteAnswer, { kind: 'failed' }>, job: Job): string {
  return `${job.shown(answer.path)} could not be written: ${answer.because}`
}
