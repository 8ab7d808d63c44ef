import { openThings } from '../../record/standing.ts'
import { isWatched } from '../../record/survey.ts'
import { all, say } from './elements.ts'
import { numbers } from './paint.ts'
import { write } from './respond.ts'
import { personOf } from './sign.ts'
import type { Work } from './work.ts'

/** Why the run cannot be closed as finished; empty where it can. A stopped run is closed as stopped, as it is. */
function whyNotFinished(work: Work): string {
  const now = work.now()
  const open = now.inOrder.filter((standing) => {
    const isReview = standing.item.kind === 'sign' && standing.item.holdKind === 'review'
    return (standing.status !== 'done' && standing.status !== 'off' && !isReview) || isWatched(standing)
  })
  if (now.missingAtStart.length > 0) return 'Fill in “This job” first.'
  if (open.length > 0) return `Still open: ${numbers(open)}.`
  const things = openThings(work.job, work.state())
  if (things.length > 0) return `Still on or off: ${things.map(({ says }) => says).join('; ')}.`
  const left = all('[data-tick^="final:"]').filter((tick) => !work.state().ticks.has(tick.dataset.tick ?? ''))
  return left.length > 0
    ? `Look and tick first, under “Left like this”: ${left.map((tick) => tick.textContent).join('; ')}.`
    : ''
}

/** `isStop`: it is closed as stopped although nothing stops it, because it cannot go on. */
export async function closeRun(
  work: Work,
  form: HTMLFormElement,
  name: string,
  text: string,
  isStop: boolean,
): Promise<void> {
  const isStopped = isStop || work.now().stop !== null
  const refused = isStopped ? '' : whyNotFinished(work)
  if (refused !== '') return say(refused)
  if (isStopped && text === '') return say('Write why it stops, how the equipment is left, and who was told.')
  if (name === '') return say('Write your name first.')
  const how = isStopped ? 'stopped' : 'finished'
  if (await write(work, { kind: 'end', how, text }, 'Closed. Save the record.', [personOf(work, name)])) form.reset()
}
