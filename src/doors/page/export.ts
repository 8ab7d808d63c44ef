import type { Entry } from '../../record/entry.ts'
import { makeRecord, recordFileName } from '../../record/make-record.ts'
import { timeNow, type Work } from './work.ts'

/** Saves the record of the job under way as a file on this device. */
export function exportRecord(work: Work): Promise<void> {
  return save(work, work.entries())
}

/** Saves the record of an earlier job. */
export async function exportRun(work: Work, run: string): Promise<void> {
  const entries = work.earlier().get(run)
  if (entries !== undefined) await save(work, entries)
}

async function save(work: Work, entries: readonly Entry[]): Promise<void> {
  const photos = await work.store.photos(entries.flatMap((entry) => (entry.kind === 'photo' ? [entry.photo] : [])))
  const record = makeRecord(work.job, { entries, source: 'page', saved: timeNow(), photos })
  const address = URL.createObjectURL(new Blob([`${JSON.stringify(record, null, 2)}\n`], { type: 'application/json' }))
  const link = document.createElement('a')
  link.href = address
  link.download = recordFileName(record)
  link.click()
  setTimeout(() => URL.revokeObjectURL(address), 10_000)
}
