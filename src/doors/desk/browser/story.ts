import type { ShownFinding } from '../wire.ts'
import { button, byId, make, say, withCode } from './elements.ts'
import { kindTag } from './finding-acts.ts'

export type Station = ShownFinding['story'][number]

/** Walks the way that leads to a fault, one station at a time; each shows its place in the text. */
export function showStory(finding: ShownFinding | null, goTo: (station: Station) => void): void {
  const panel = byId('panel-story')
  if (finding === null || finding.story.length === 0) {
    panel.replaceChildren(
      make(
        'p',
        { class: 'empty' },
        'Where a way through the job goes wrong, “Show how” at the finding walks you through it here, step by step.',
      ),
    )
    return
  }
  const { story } = finding
  let at = 0
  const stations = story.map((station, index) => {
    const press = button(`${index + 1}. ${station.text}`, () => walk(index), '')
    return make('li', {}, press)
  })
  const back = button('← Back', () => walk(at - 1))
  const on = button('Next →', () => walk(at + 1))
  const walk = (to: number): void => {
    at = Math.min(Math.max(to, 0), story.length - 1)
    for (const [index, item] of stations.entries()) {
      item.classList.toggle('is-at', index === at)
      if (index === at) item.firstElementChild?.setAttribute('aria-current', 'step')
      else item.firstElementChild?.removeAttribute('aria-current')
    }
    back.disabled = at === 0
    on.disabled = at === story.length - 1
    stations[at]?.scrollIntoView({ block: 'nearest' })
    const station = story[at]
    if (station === undefined) return
    say(station.text)
    goTo(station)
  }
  panel.replaceChildren(
    make(
      'div',
      { class: 'story' },
      make(
        'div',
        {},
        kindTag(finding),
        make('p', { class: 'story-what' }, ...withCode(finding.message)),
        make('p', {}, ...withCode(finding.advice)),
        make('div', { class: 'note-acts' }, back, on),
      ),
      make('ol', { 'aria-label': 'The way that leads there' }, ...stations),
    ),
  )
  walk(0)
}

/** Whoever opens the tab without having picked a finding is shown the first one that has a way. */
export function showFirstStory(findings: readonly ShownFinding[], goTo: (station: Station) => void): void {
  const first = findings.find(({ story }) => story.length > 0)
  if (first !== undefined && document.querySelector('#panel-story .story') === null) showStory(first, goTo)
}
