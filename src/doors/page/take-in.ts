import { photosIn } from '../../record/make-record.ts'
import { misjudged } from '../../record/misjudged.ts'
import { readRecord } from '../../record/read-record.ts'
import { make, one, say } from './elements.ts'
import { refusals } from './respond.ts'
import type { Work } from './work.ts'

/** A record larger than this is no record of one job. */
const LARGEST = 200_000_000

/** Reads a record file and goes on with its run, if it is whole and of this very procedure. */
export async function takeIn(work: Work, input: HTMLInputElement, file: File | undefined): Promise<void> {
  if (file === undefined) return
  const told = one('[data-take-in-says]')
  const tell = (lines: readonly string[]): void => told?.replaceChildren(...lines.map((line) => make('li', '', line)))
  tell([])
  const { record, faults } =
    file.size > LARGEST
      ? { record: null, faults: ['This file is too large for a record.'] }
      : readRecord(await file.text())
  input.value = ''
  if (record === null) {
    tell(faults.slice(0, 8))
    return say(`Not taken in: ${faults[0] ?? ''}`)
  }
  const { document, run, source } = record
  if (document.digest !== work.job.digest)
    return say(
      `Not taken in: it is of ${document.number} revision ${document.revision}, digest ${short(document.digest)}. This page is ${work.job.number} revision ${work.job.revision}, digest ${short(work.job.digest)}.`,
    )
  const wrong = misjudged(work.job, record.entries)
  if (wrong.length > 0) {
    tell(wrong.map(({ number, says }) => `${number} ${says}`))
    return say('Not taken in: it holds a reading that is judged wrongly, or that this procedure has not.')
  }
  const written = await work.takeIn(record, photosIn(record))
  if (written !== 'kept') return say(refusals[written])
  say(
    `Taken in: run ${run.slice(0, 8)}, ${source === 'page' ? 'from a tablet' : 'from a print'}. Look through it before you go on.`,
  )
}

function short(digest: string): string {
  return digest.replace(/^sha256:/, '').slice(0, 8)
}
