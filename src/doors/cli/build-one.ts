import { join } from 'node:path'
import { removeBuild, writeFolder } from '../../devices/write-output.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { type BuildJob, notWrittenSentence } from './build-job.ts'
import { documentFiles, documentFolder } from './document-folder.ts'
import type { LookedAt } from './look-at-procedures.ts'
import type { MadeOutputs } from './program.ts'
import { countInWords, hasError } from './report.ts'
import { isSameDocument } from './same-document.ts'
import { buildsOf, standingBuilds } from './standing-builds.ts'
import { checklistsIn, staleChecklists } from './standing-checklists.ts'

/** What may be written of a procedure, or why nothing may. */
export type Plan =
  | { readonly kind: 'write'; readonly stepFile: StepFile; readonly folder: string }
  | {
      readonly kind: 'leave'
      readonly because: string
      /** Whether leaving it is a failure of the build. */
      readonly fails: boolean
      /** Whether an older build of it is taken away: nobody must print it by mistake. */
      readonly clears: boolean
    }

export function planFor(looked: LookedAt, all: readonly LookedAt[], job: BuildJob): Plan {
  const { stepFile } = looked
  const leave = { kind: 'leave', fails: true, clears: true } as const
  if (stepFile === null || hasError(looked)) {
    const because = looked.breakdown ?? `${looked.file}: ${inTheWay(looked)}, so nothing of it was written.`
    return { ...leave, because }
  }
  if (stepFile.document.status === 'draft' && !job.options.draft) {
    const because = `${looked.file}: a draft, so nothing of it was written. With --draft it is written, marked NOT FOR USE.`
    return { ...leave, because, fails: false }
  }
  const twin = all.find((other) => other !== looked && isSameDocument(other, looked))
  if (twin !== undefined) {
    const because = `${looked.file}: ${twin.file} carries the same number and revision, so neither of them was written.`
    return { ...leave, because }
  }
  const folder = documentFolder(stepFile.document)
  if (folder !== null) return { kind: 'write', stepFile, folder }
  const { number, revision } = stepFile.document
  const because = `${looked.file}: number “${number}” with revision “${revision}” cannot name a folder, so nothing of it was written.`
  return { ...leave, because, clears: false }
}

function inTheWay(looked: LookedAt): string {
  if (looked.findings.some((finding) => finding.severity === 'error')) return countInWords(looked.findings)
  return `its library has ${looked.libraryErrors === 1 ? 'an error' : `${looked.libraryErrors} errors`}`
}

/** Whether everything was written, with nothing missing, or only some of it, or nothing. */
export type Written = 'whole' | 'in-part' | 'nothing'

/** Writes the outputs of one document once they are made; `made` rejects where the program itself failed. */
export async function writeDocument(
  looked: LookedAt,
  folder: string,
  made: Promise<MadeOutputs>,
  job: BuildJob,
): Promise<Written> {
  let outputs: MadeOutputs
  try {
    outputs = await made
  } catch (error) {
    const reason = error instanceof Error ? error.message.split('\n')[0] : String(error)
    job.say(
      `${looked.file}: witnessmark itself failed while making the outputs, so nothing of it was written (${reason}). This is a fault of the program: please report it together with the file.`,
    )
    takeAway(looked, job)
    return 'nothing'
  }
  for (const { what, milliseconds } of outputs.timings ?? [])
    job.watch.timings.push({ what, milliseconds, file: looked.file })
  const path = join(job.outFolder, folder)
  const answer = job.watch.time('write to disk', looked.file, () =>
    writeFolder(path, outputs.files, [...documentFiles, ...staleChecklists(path, outputs.files)]),
  )
  if (answer.kind === 'failed') {
    job.say(`${looked.file}: ${notWrittenSentence(answer, job)}`)
    return 'nothing'
  }
  job.say(`${looked.file} → ${job.shown(path)} (${outputs.files.map((file) => file.name).join(', ')})`)
  for (const complaint of outputs.complaints) job.say(`${looked.file}: ${complaint}`)
  return outputs.complaints.length === 0 ? 'whole' : 'in-part'
}

/** Takes away what an earlier build wrote from a procedure that may not be built now. */
export function takeAway(looked: LookedAt, job: BuildJob): void {
  for (const { folder } of buildsOf(looked, standingBuilds(job.outFolder, job.program))) {
    const path = join(job.outFolder, folder)
    const answer = removeBuild(path, [...documentFiles, ...checklistsIn(path)])
    if (answer.kind === 'failed')
      job.say(
        `${looked.file}: the older build in ${job.shown(path)} could not be taken away: ${answer.because} Do not print it.`,
      )
    else job.say(`${looked.file}: the older build in ${job.shown(path)} was taken away, so that nobody works from it.`)
  }
}
