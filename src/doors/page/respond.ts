import type { Happening, Person } from '../../record/entry.ts'
import type { JobItem } from '../../record/job.ts'
import { openBefore } from '../../record/survey.ts'
import { byData, goTo, one, say } from './elements.ts'
import { elementOf, numbers } from './paint.ts'
import type { Work } from './work.ts'

export async function write(
  work: Work,
  happening: Happening,
  says = '',
  by?: readonly Person[],
  photos?: ReadonlyMap<string, string>,
): Promise<boolean> {
  const written = await work.write(happening, by, photos)
  say(written === 'kept' ? says : refusals[written])
  return written === 'kept'
}

export const refusals = {
  behind: 'Something was written in another window just now. Look at it, then do this again.',
  'not-kept':
    'This could not be kept on this device, so it is not ticked. Save the record now, and go on with the paper.',
} as const

export async function put(work: Work, happening: Happening, by?: readonly Person[]): Promise<void> {
  await write(work, happening, '', by)
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
  if (missing?.field === 'person') return byData('person', missing.name)
  if (missing !== undefined) return one('button', byData('variant', missing.name) ?? document)
  if (now.standsAt === null) return one('#finish')
  const { item } = now.next ?? now.standsAt
  const element = elementOf(item)
  return item.kind === 'sign' ? one('input', element ?? document) : element
}
