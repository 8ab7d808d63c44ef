import type { JobConsequence } from '../../record/job.ts'
import type { Standing } from '../../record/survey.ts'
import { make, one } from './elements.ts'
import type { Work } from './work.ts'

/** The panel that says what follows from a reading out of limit, with the one button that leads on. Stands before what it keeps from being pressed. */
export function paintOutlet(work: Work, { item, outlet }: Standing, before: HTMLElement | null): void {
  if (before === null) return
  const stopped = work.state().stopped.get(item.id)
  const shown = outlet === null ? '' : JSON.stringify([outlet, stopped])
  const parent = before.parentElement
  const found = parent === null ? null : one(':scope > .outlet-now', parent)
  if (found === null && outlet === null) return
  const panel = found ?? make('div', 'outlet-now', '')
  if (found === null) before.before(panel)
  // Only when something has changed: a name may be half typed.
  if ((panel.dataset.shown ?? '') === shown) return
  panel.dataset.shown = shown
  panel.replaceChildren()
  if (outlet === null) return
  panel.append(make('p', 'outlet-head', `OUT OF LIMIT: ${outlet.out.join('; ')}`))
  const { consequence } = outlet
  if (consequence === null) {
    panel.append(make('p', '', 'Written down. It counts when the next decision is made.'))
    return
  }
  panel.append(make('p', '', consequence.says))
  if (consequence.action === 'continue') return
  if (consequence.action === 'stop') {
    panel.append(...stopForm(item.id, stopped))
  } else {
    const label = consequence.action === 'go' ? 'Go on as written' : againLabel(consequence, outlet.attempt + 1)
    const button = make('button', 'plain', label)
    button.setAttribute('type', 'button')
    button.dataset.settle = item.id
    panel.append(button)
  }
  panel.append(make('p', 'small', 'Mistyped? Correct the figure above.'))
}

function againLabel({ atMost }: JobConsequence, attempt: number): string {
  return `Do it again: try ${attempt}${atMost === null ? '' : ` of ${atMost}`}`
}

function stopForm(item: string, stopped: { name: string; at: string } | undefined): readonly HTMLElement[] {
  if (stopped !== undefined)
    return [make('p', 'outlet-head', `Stopped by ${stopped.name}, ${stopped.at.slice(0, 16).replace('T', ' ')}`)]
  const form = document.createElement('form')
  form.dataset.stop = item
  const field = make('label', 'field', 'Your name')
  const input = document.createElement('input')
  input.name = 'name'
  input.autocomplete = 'off'
  field.append(input)
  const button = make('button', 'plain', 'I have stopped the work')
  button.setAttribute('type', 'submit')
  form.append(field, button)
  return [form]
}
