import { existsSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { removeLeftovers, writeFolder } from '../../devices/write-output.ts'
import { unknownVariants } from '../../outputs/checklist/print-choices.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { type BuildJob, type BuildOptions, notWrittenSentence, outputChoices } from './build-job.ts'
import { type Plan, planFor, takeAway, writeDocument } from './build-one.ts'
import { libraryFiles } from './document-folder.ts'
import { exitStatus } from './exit-status.ts'
import { findProcedures } from './find-procedures.ts'
import { type LookedAt, lookAtProcedures } from './look-at-procedures.ts'
import type { MadeOutputs, Program } from './program.ts'
import { type ProgressBar, progressBar } from './progress-bar.ts'
import { countInWords, procedures, reporterFor } from './report.ts'
import { withNumberChecked } from './same-document.ts'
import { shownPath } from './shown-path.ts'
import { standingBuilds } from './standing-builds.ts'
import type { Surroundings } from './surroundings.ts'
import { stopwatch, timingsTable } from './timings.ts'

/**
 * `witnessmark build`: checks every procedure, then writes those without an error, one folder a document, and what stands
 * beside them: index, audit and pick list. Where a procedure has an error, what an earlier build wrote from it is taken away.
 */
export async function build(
  typed: readonly string[],
  options: BuildOptions,
  program: Program,
  surroundings: Surroundings,
): Promise<number> {
  const started = surroundings.now()
  const bar = progressBar(surroundings.paintOver ?? null, surroundings.columns)
  const job: BuildJob = {
    options,
    program,
    outFolder: resolve(surroundings.folder, options.out),
    shown: (path) => shownPath(path, surroundings.folder),
    say: (sentence) => {
      bar.clear()
      surroundings.say(`${sentence}\n`)
    },
    watch: stopwatch(() => performance.now()),
  }
  const found = findProcedures(typed, surroundings.folder)
  for (const sentence of [...found.complaints, ...found.unread]) job.say(sentence)
  const all = checkAll(found.files, job, bar, surroundings)
  if (all.length === 0) return exitStatus({ wrongUse: found.complaints.length > 0, failed: true })

  removeLeftovers(job.outFolder, surroundings.now())
  const asked = withKnownVariants(all, job)
  const { built, failed } = await writeAll(all, asked, bar)
  const isListed = await writeLibraryFiles(built, all[0]?.paper ?? null, asked)
  const findings = countInWords(all.flatMap((looked) => looked.findings))
  job.say(`${built.length} of ${procedures(all.length)} written to ${job.shown(job.outFolder)}. Found: ${findings}.`)
  if (built.length > 0 && isListed) job.say(`Open ${job.shown(join(job.outFolder, 'index.html'))} first.`)
  if (options.timings) surroundings.say(timingsTable(job.watch.timings, surroundings.now() - started))
  return exitStatus({
    wrongUse: found.complaints.length > 0 || asked !== job,
    failed: failed || found.unread.length > 0 || !isListed,
  })
}

function checkAll(
  files: readonly string[],
  job: BuildJob,
  bar: ProgressBar,
  surroundings: Surroundings,
): readonly LookedAt[] {
  const reporter = reporterFor(job.options.format, job.program, surroundings)
  const all: LookedAt[] = []
  const looking = lookAtProcedures(files, job.program, surroundings.folder)
  for (const file of files) {
    bar.show(all.length, files.length, `checked, now ${job.shown(file)}`)
    const next = job.watch.time('check', job.shown(file), () => looking.next())
    if (next.done === true) break
    const checked = withNumberChecked(next.value, all)
    all.push(checked)
    bar.clear()
    reporter.add(checked)
  }
  reporter.finish()
  return all
}

/** The same job without the variants that no document has, which are told; the very same where there are none. */
function withKnownVariants(all: readonly LookedAt[], job: BuildJob): BuildJob {
  const { print } = job.options
  if (print === undefined || Object.keys(print.variant).length === 0) return job
  const documents = all.flatMap(({ stepFile }) => (stepFile === null ? [] : [stepFile.document.variants]))
  const { sentences, left } = unknownVariants(documents, print.variant)
  if (sentences.length === 0) return job
  for (const sentence of sentences) job.say(`error: ${sentence}`)
  return { ...job, options: { ...job.options, print: { ...print, variant: left } } }
}

/** Outputs are made by whoever is free, and written and told in the order of the procedures. */
async function writeAll(all: readonly LookedAt[], job: BuildJob, bar: ProgressBar) {
  const plans = all.map((looked) => ({ looked, plan: planFor(looked, all, job) }))
  const toMake = plans.filter(({ plan }) => plan.kind === 'write').length
  const hands = toMake < WORTH_HANDS ? null : (job.program.hireHands?.() ?? null)
  const make = hands?.makeOutputs ?? job.program.makeOutputs
  const built: StepFile[] = []
  let failed = false
  const ordered = new Map<LookedAt, Promise<MadeOutputs>>()
  const order = (looked: LookedAt, plan: Extract<Plan, { kind: 'write' }>) => {
    const made = make(plan.stepFile, outputChoices(job, looked.paper))
    // Looked at when its turn comes; until then a failure is nobody's.
    made.catch(() => undefined)
    ordered.set(looked, made)
    return made
  }
  try {
    if (hands !== null) for (const { looked, plan } of plans) if (plan.kind === 'write') order(looked, plan)
    for (const { looked, plan } of plans) {
      if (plan.kind === 'leave') {
        job.say(plan.because)
        if (plan.clears) takeAway(looked, job)
        failed ||= plan.fails
        continue
      }
      bar.show(built.length, toMake, `written, now ${looked.file}`)
      const written = await writeDocument(looked, plan.folder, ordered.get(looked) ?? order(looked, plan), job)
      ordered.delete(looked)
      if (written !== 'nothing') built.push(plan.stepFile)
      failed ||= written !== 'whole'
    }
  } finally {
    bar.clear()
    await hands?.letGo()
  }
  return { built, failed }
}

/**
 * Below this many documents it is not worth to start others. Measured with two workers on two busy cores: four procedures in 9.8 s,
 * where one thread alone computes for 11.4 s; each worker costs about a second of computing to start.
 */
const WORTH_HANDS = 4

/** Index and audit are about every document that stands in the output folder, also those of other runs. False where something is missing. */
async function writeLibraryFiles(
  built: readonly StepFile[],
  paper: LookedAt['paper'],
  job: BuildJob,
): Promise<boolean> {
  const standing = job.watch.time('read what stands', '', () => standingBuilds(job.outFolder, job.program))
  if (standing.length === 0 && !existsSync(join(job.outFolder, 'index.html'))) return true
  const made = await job.program.makeLibraryFiles(standing, built, outputChoices(job, paper))
  for (const { what, milliseconds } of made.timings ?? [])
    job.watch.timings.push({ what: `${what} of all`, milliseconds, file: '' })
  const answer = job.watch.time('write to disk', '', () => writeFolder(job.outFolder, made.files, libraryFiles))
  if (answer.kind === 'failed') job.say(notWrittenSentence(answer, job))
  for (const complaint of made.complaints) job.say(complaint)
  return answer.kind === 'written' && made.complaints.length === 0
}
