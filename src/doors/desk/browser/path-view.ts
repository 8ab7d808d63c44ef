import type { PathAnswer, StateStrip, StateStrips, StepMark } from '../wire.ts'
import { ask } from './ask.ts'
import { byId, make } from './elements.ts'

let asked = 0

/** The states along the steps and the way as it is drawn on the sheet, fetched while they are looked at. */
export async function showPath(file: string, goTo: (start: number) => void): Promise<void> {
  const own = ++asked
  const answer = await ask<PathAnswer>('path', { file }).catch(() => null)
  if (answer === null || own !== asked) return
  showStates(answer.states, goTo)
  showDrawings(answer.drawings)
}

/** The states of the equipment along the steps; each step leads to its text. */
function showStates(states: StateStrips | null, goTo: (start: number) => void): void {
  const panel = byId('strips')
  if (states === null) {
    panel.replaceChildren(
      make(
        'p',
        { class: 'empty' },
        'No states are named yet. Put one in (Put in… → States) and you see here how it stands at each step.',
      ),
    )
    return
  }
  const left = panel.scrollLeft
  const head = make('tr', {}, make('th', { scope: 'col' }, 'After step'))
  for (const step of states.steps) {
    const go = make('button', { type: 'button', title: step.title }, step.number)
    go.addEventListener('click', () => {
      if (step.start >= 0) goTo(step.start)
    })
    head.append(make('th', { scope: 'col', 'data-number': step.number }, go))
  }
  const table = make('table', { class: 'strips' }, make('thead', {}, head))
  table.append(make('tbody', {}, ...states.strips.map((strip) => rowOf(strip, states.steps))))
  const legend = make(
    'p',
    { class: 'legend' },
    'The usual way through, from left to right. Green: cannot hurt anyone. Red: can. Bold: the step changes it (dark edge) or proves it (green edge).',
  )
  panel.replaceChildren(table, legend)
  panel.scrollLeft = left
}

function rowOf(strip: StateStrip, steps: readonly { readonly number: string }[]): HTMLElement {
  const row = make('tr', {}, make('th', { scope: 'row' }, strip.name))
  for (const [index, cell] of strip.values.entries()) {
    const safety = cell.isSafe === null ? '' : cell.isSafe ? 'is-safe' : 'is-unsafe'
    const happens = cell.happens === 'changes' ? 'is-changed' : cell.happens === 'proves' ? 'is-proved' : ''
    const words = cell.happens === 'proves' ? `${cell.value} ✓` : cell.value
    row.append(make('td', { class: `${safety} ${happens}`.trim(), 'data-number': steps[index]?.number ?? '' }, words))
  }
  return row
}

/** Marks the column of the step under the cursor and brings it into view. */
export function markStep(step: StepMark | null): void {
  const panel = byId('strips')
  for (const cell of panel.querySelectorAll('.is-now')) cell.classList.remove('is-now')
  if (step === null || byId('panel-path').hidden) return
  for (const cell of panel.querySelectorAll<HTMLElement>(`[data-number="${CSS.escape(step.number)}"]`))
    cell.classList.add('is-now')
  const cell = panel.querySelector<HTMLElement>('th.is-now')
  if (cell === null) return
  const right = cell.offsetLeft + cell.offsetWidth
  if (cell.offsetLeft < panel.scrollLeft + 150 || right > panel.scrollLeft + panel.clientWidth)
    panel.scrollLeft = cell.offsetLeft - panel.clientWidth / 2
}

let lastDrawn = ''

function showDrawings(drawings: PathAnswer['drawings']): void {
  const slot = byId('drawings')
  const drawn = drawings.map(({ svg }) => svg).join('')
  if (drawn === lastDrawn && slot.childElementCount > 0) return
  lastDrawn = drawn
  slot.replaceChildren(
    ...drawings.map(({ svg, title, says }) => {
      const picture = make('img', { class: 'drawing', alt: `${title}. ${says}` })
      picture.src = `data:image/svg+xml;charset=utf-8,${encodeURIComponent(svg)}`
      return picture
    }),
  )
}
