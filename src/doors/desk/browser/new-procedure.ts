import type { Question } from '../../../writing/new/questions.ts'
import type { MadeAnswer } from '../wire.ts'
import { ask, fetchJson } from './ask.ts'
import { make, openDialog } from './elements.ts'

interface QuestionsAnswer {
  readonly questions: readonly Question[]
  readonly machines: readonly string[]
}

/** Asks what the job is, and makes the first text of it: what is still open stands in it as `??`. */
export async function showNew(open: (file: string) => void): Promise<void> {
  const answer = await fetchJson<QuestionsAnswer>('questions')
  if (answer === null) return
  const says = make('p', { class: 'form-says', role: 'alert' })
  const fields = answer.questions.map((question) => fieldOf(question, answer.machines))
  const form = make(
    'form',
    {},
    make('p', {}, 'A few questions, and the first text is there. All of it can be changed later.'),
    ...fields.map(({ row }) => row),
    says,
    make('button', { type: 'submit', class: 'tool is-main' }, 'Begin'),
  )
  form.addEventListener('submit', (event) => {
    event.preventDefault()
    void ask<MadeAnswer>('new', Object.fromEntries(fields.map(({ name, value }) => [name, value()])))
      .catch(() => null)
      .then((made) => {
        if (made?.kind !== 'made') {
          says.textContent = `That did not work: ${made?.because ?? 'the desk gave no answer.'}`
          return
        }
        dialog.close()
        open(made.file)
      })
  })
  const dialog = openDialog('New procedure', form)
  form.querySelector<HTMLElement>('input')?.focus()
}

function fieldOf(question: Question, machines: readonly string[]) {
  const id = `new-${question.name}`
  const help = question.help === '' ? null : make('p', { class: 'small' }, question.help)
  if (question.takes === 'yes or no') {
    const tick = make('input', { type: 'checkbox', id })
    const row = make('div', { class: 'form-field ask-tick' }, tick, make('label', { for: id }, question.asks), help)
    return { name: question.name, row, value: () => (tick.checked ? 'yes' : 'no') }
  }
  const choices =
    question.takes === 'choice'
      ? question.choices
      : question.takes === 'machine'
        ? [['', 'none'] as const, ...machines.map((name) => [name, name.replaceAll('-', ' ')] as const)]
        : null
  const input = choices === null ? make('input', { id, autocomplete: 'off' }) : make('select', { id })
  for (const [value, says] of choices ?? []) input.append(make('option', { value }, says))
  const row = make('div', { class: 'form-field' }, make('label', { for: id }, question.asks), help, input)
  return { name: question.name, row, value: () => input.value }
}
