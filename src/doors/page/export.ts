import { jobState } from './job-log.ts'
import { type JobRecord, makeRecord, recordFileName } from './record.ts'
import { survey } from './survey.ts'
import { itemContents, timeNow, type Work } from './work.ts'

/** Saves the record of the job under way as a file on this device. */
export function exportRecord(work: Work): void {
  save(makeRecord(work.job, work.state(), work.now(), work.events(), timeNow()))
}

/** Saves the record of an earlier job. */
export function exportRun(work: Work, run: string): void {
  const events = work.earlier().get(run) ?? []
  const state = jobState(events, itemContents(work.job))
  save(makeRecord(work.job, state, survey(work.job, state), events, timeNow()))
}

function save(record: JobRecord): void {
  const address = URL.createObjectURL(new Blob([`${JSON.stringify(record, null, 2)}\n`], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = recordFileName(record)
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
