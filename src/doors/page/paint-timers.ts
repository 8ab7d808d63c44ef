import { isRunning, runningTimers, type Timer, timeInWords, timersOf } from '../../record/timers.ts'
import { byData, make, one, setText, showIn } from './elements.ts'
import type { Work } from './work.ts'

/** Every timer where it stands, and the first of them in the bar. */
export function paintTimers(work: Work): void {
  const instant = Date.now()
  for (const { item, status } of work.now().inOrder) {
    if (item.kind !== 'step') continue
    // Of this very moment, where the survey is of the last entry.
    for (const timer of timersOf(item, work.state(), instant)) {
      const part = byData('wait', timer.wait.id)
      if (part === null) continue
      part.classList.toggle('is-begun', timer.begun !== null)
      part.classList.toggle('is-over', timer.isOver)
      part.classList.toggle('is-late', timer.isLate)
      setText(one('.timer-now', part), timerSays(timer))
      const start = one('[data-start-wait]', part)
      if (start) start.hidden = timer.begun !== null || timer.wait.begins !== 'started' || status === 'off'
      paintEarly(part, timer)
    }
  }
  paintBar(work)
}

function paintEarly(part: HTMLElement, timer: Timer): void {
  const early = one<HTMLElement>('[data-end-early]', part)
  const isAsked = timer.settledBy === null && (timer.isLate || (timer.begun !== null && isRunning(timer)))
  if (early) {
    early.hidden = !isAsked
    const what = `${timer.wait.begins === 'watch' ? 'fire watch' : 'wait'} of ${timer.item.number}`
    setText(
      early,
      timer.isLate ? `The ${what} is too long: write why it goes on` : `End the ${what} early: a deviation`,
    )
  }
  const { settledBy } = timer
  showIn(
    part,
    'settled',
    settledBy === null
      ? ''
      : `${settledBy.text} ${settledBy.by.map(({ name }) => name).join(', ')}: ${settledBy.because}`,
  )
}

function timerSays({ wait, begun, elapsed, left, isOver, isLate }: Timer): string {
  if (begun === null)
    return {
      started: 'Not started.',
      since: 'Begins when the step that it is counted from is done.',
      watch: 'Begins when this step is ticked.',
    }[wait.begins]
  const since = `Since ${begun.slice(11, 16)}, ${timeInWords(elapsed)}.`
  if (isLate) return `TOO LATE. ${since}`
  if (!isOver) return `${since} ${timeInWords(left)} LEFT.`
  const until = wait.latest === null ? '' : ` ${timeInWords(Math.max(0, wait.latest - elapsed))} until the latest.`
  return `OVER. ${since}${until}`
}

function paintBar(work: Work): void {
  const running = runningTimers(work.job, work.state(), Date.now())
  const first = [...running].sort((a, b) => a.left - b.left)[0]
  const bar = one('[data-timer-bar]')
  if (bar) bar.hidden = first === undefined
  setText(bar, first === undefined ? '' : `${first.item.number} ${timeInWords(first.left)}`)
}

/** What is on, off, running or too old at this moment, under the bar. */
export function paintRunning(work: Work, lines: readonly string[]): void {
  const list = one('[data-open-list]')
  const running = runningTimers(work.job, work.state(), Date.now()).map(
    ({ item, wait, left }) => `${item.number} ${wait.says}: ${timeInWords(left)} left`,
  )
  const all = [...running, ...lines]
  setText(one('[data-open-count]'), String(all.length))
  if (list === null) return
  const shown = JSON.stringify(all)
  if (list.dataset.shown === shown) return
  list.dataset.shown = shown
  list.replaceChildren(...(all.length === 0 ? ['Nothing is open.'] : all).map((line) => make('li', '', line)))
}
