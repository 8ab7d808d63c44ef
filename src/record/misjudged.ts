import { itemContents } from './item-contents.ts'
import type { Job } from './job.ts'
import { judgeHere } from './judge-here.ts'
import { readingOf } from './readings-meant.ts'
import { emptyState, enter } from './reckon.ts'
import type { Remark } from './remark.ts'
import type { RunRecord } from './run-record.ts'

/** Verdicts in the file that are not those of the limits. */
export function misjudged(job: Job, entries: RunRecord['entries']): readonly Remark[] {
  const contents = itemContents(job)
  const state = emptyState()
  return entries.flatMap((entry): readonly Remark[] => {
    const remarks: Remark[] = []
    if (entry.kind === 'reading' && entry.typed !== '') {
      const item = job.items.find((one) => one.kind === 'step' && readingOf(one, entry.reading, state) !== undefined)
      const reading = item && readingOf(item, entry.reading, state)
      if (item?.kind !== 'step' || reading === undefined)
        remarks.push({ what: 'misjudged', number: '', says: `${entry.reading} is no reading of this procedure.` })
      else {
        const { verdict } = judgeHere(job, state, item, reading, entry.position, entry.typed)
        if (verdict !== entry.verdict)
          remarks.push({
            what: 'misjudged',
            number: item.number,
            says: `${reading.words}: ${entry.typed} stands there as “${entry.verdict}”; by the limit it is “${verdict}”.`,
          })
      }
    }
    enter(state, entry, contents)
    return remarks
  })
}
