import { goTo, make, one, say } from './elements.ts'

/** What is waiting for a reason, by its panel. */
const asking = new WeakMap<Element, { readonly keep: (because: string) => Promise<void>; readonly leave: () => void }>()

/**
 * Opens a panel below a field that asks why something is changed. Nothing is written before a reason is given; “Leave it”
 * changes nothing.
 */
export function askReason(
  beside: HTMLElement,
  question: string,
  usual: readonly string[],
  keep: (because: string) => Promise<void>,
  leave: () => void = () => {},
): void {
  const place = beside.closest<HTMLElement>('.blank, .note, .field') ?? beside
  const next = place.nextElementSibling
  if (next?.matches('.why')) next.remove()
  const panel = make('form', 'why', '')
  panel.dataset.why = ''
  panel.append(make('p', 'why-head', question))
  const answers = make('p', 'answers', '')
  for (const reason of usual) {
    const button = make('button', 'plain', reason)
    button.setAttribute('type', 'button')
    button.dataset.reason = reason
    answers.append(button)
  }
  const field = make('label', 'field', 'Or in your words')
  const input = document.createElement('input')
  input.name = 'because'
  input.autocomplete = 'off'
  field.append(input)
  const write = make('button', 'plain', 'Write it down')
  write.setAttribute('type', 'submit')
  const back = make('button', 'plain', 'Leave it as it was')
  back.setAttribute('type', 'button')
  back.dataset.leave = ''
  panel.append(answers, field, write, back)
  asking.set(panel, { keep, leave })
  place.after(panel)
  say('Say why first. It stands in the record.')
  goTo(one('button', panel))
}

/** A reason pressed or typed: what waited for it is written. */
export async function giveReason(panel: Element, because: string): Promise<void> {
  const waiting = asking.get(panel)
  if (waiting === undefined) return
  if (because.trim() === '') return say('Write why, or press a reason.')
  panel.remove()
  await waiting.keep(because.trim())
}

export function leaveIt(panel: Element): void {
  const waiting = asking.get(panel)
  panel.remove()
  say('')
  waiting?.leave()
}
