import type { JobItem } from '../../outputs/page/job.ts'
import { byData, goTo, one, say } from './elements.ts'
import type { JobHappening } from './job-log.ts'
import { elementOf, numbers } from './paint.ts'
import { openBefore } from './survey.ts'
import type { Work } from './work.ts'

export async function write(work: Work, happening: JobHappening, says = ''): Promise<boolean> {
  const kept = await work.write(happening)
  say(
    kept
      ? says
      : 'This could not be kept on this device, so it is not ticked. Save the record now, and go on with the paper.',
  )
  return kept
}

export async function put(work: Work, happening: JobHappening): Promise<void> {
  await write(work, happening)
}

export function refuse(work: Work, because: string): void {
  say(because)
  const { missingAtStart } = work.now()
  if (missingAtStart.length > 0) goNext(work)
}

/** Says what must come first, and says true, where an item cannot be settled yet. */
export function notYet(work: Work, item: JobItem): boolean {
  const now = work.now()
  const open = openBefore(now, item)
  const standing = now.standings.get(item.id)
  if (open.length > 0) {
    say(`First: ${numbers(open)}.`)
    goTo(elementOf(open[0]?.item ?? item))
  } else if (standing?.status === 'blocked') {
    refuse(work, standing.why)
  }
  return open.length > 0 || standing?.status === 'blocked'
}

export function goNext(work: Work): void {
  goTo(nextPlace(work))
}

function nextPlace(work: Work): HTMLElement | null {
  const now = work.now()
  const missing = now.missingAtStart[0]
  if (now.stop !== null) return elementOf(now.stop.item)
  if (missing?.field === 'crew') return byData('crew', missing.name)
  if (missing !== undefined) return one('button', byData('variant', missing.name) ?? document)
  if (now.next === null) return one('#finish')
  const element = elementOf(now.next.item)
  return now.next.item.kind === 'sign' ? one('input', element ?? document) : element
}
