import type { MadeAnswer, ProcedureLine } from '../wire.ts'
import { ask, fetchJson } from './ask.ts'
import { button, make, openDialog } from './elements.ts'

/** The list of procedures: found by words, opened, copied, renamed; and the way to a new one. */
export async function showProcedures(
  openFile: string,
  open: (file: string) => void,
  makeNew: () => void,
): Promise<void> {
  const lines = (await fetchJson<readonly ProcedureLine[]>('list')) ?? []
  const search = make('input', { type: 'search', autocomplete: 'off', id: 'find-procedure' })
  const found = make('p', { class: 'small', role: 'status' })
  const list = make('ul', { class: 'procedures' })
  const show = (): void => {
    const words = search.value.toLowerCase().split(/\s+/).filter(Boolean)
    const hits = lines.filter((line) => words.every((word) => searched(line).includes(word)))
    found.textContent = hits.length === 1 ? '1 procedure' : `${hits.length} procedures`
    list.replaceChildren(...hits.map(item))
  }
  const item = (line: ProcedureLine): HTMLElement => {
    const pick = button(
      '',
      () => {
        dialog.close()
        open(line.file)
      },
      'pick',
    )
    pick.append(make('strong', {}, line.title), make('span', {}, facts(line)))
    if (line.file === openFile) pick.setAttribute('aria-current', 'true')
    return make(
      'li',
      {},
      pick,
      button('Copy…', () => copyProcedure(line, open)),
      button('Rename…', () => renameProcedure(line, open)),
    )
  }
  search.addEventListener('input', show)
  show()
  const dialog = openDialog(
    'Procedures',
    button('New procedure…', makeNew, 'tool is-main'),
    make('label', { for: 'find-procedure' }, 'Find by number, words or status'),
    search,
    found,
    list,
  )
  search.focus()
}

function searched({ number, title, status, file }: ProcedureLine): string {
  return `${number} ${title} ${status} ${file}`.toLowerCase()
}

function facts({ number, revision, status, file }: ProcedureLine): string {
  const about = [number, revision === '' ? '' : `revision ${revision}`, status.replaceAll('-', ' ')]
  return `${about.filter(Boolean).join(' · ')}${about.some(Boolean) ? ' · ' : ''}${file}`
}

function copyProcedure(line: ProcedureLine, open: (file: string) => void): void {
  askFor(
    'Copy a procedure',
    `A copy of “${line.title}”, as a draft under its own number. Its pictures are copied too.`,
    [
      { name: 'title', words: 'Title of the copy', value: `${line.title} (copy)` },
      { name: 'number', words: 'Its number', value: '' },
    ],
    'Make the copy',
    (values) => ask<MadeAnswer>('copy', { file: line.file, ...values }),
    open,
  )
}

function renameProcedure(line: ProcedureLine, open: (file: string) => void): void {
  askFor(
    'Rename a procedure',
    'Its file and folder get this name. The title in the text is changed in the text.',
    [{ name: 'title', words: 'New name', value: line.title }],
    'Rename',
    (values) => ask<MadeAnswer>('rename', { file: line.file, ...values }),
    open,
  )
}

interface Asked {
  readonly name: string
  readonly words: string
  readonly value: string
}

function askFor(
  title: string,
  about: string,
  fields: readonly Asked[],
  go: string,
  send: (values: Readonly<Record<string, string>>) => Promise<MadeAnswer | null>,
  done: (file: string) => void,
): void {
  const says = make('p', { class: 'form-says', role: 'alert' })
  const inputs = fields.map(({ name, words, value }) => {
    const input = make('input', { id: `ask-${name}`, name, value, autocomplete: 'off' })
    return {
      name,
      input,
      row: make('div', { class: 'form-field' }, make('label', { for: `ask-${name}` }, words), input),
    }
  })
  const form = make('form', {}, make('p', {}, about), ...inputs.map(({ row }) => row), says)
  const submit = make('button', { type: 'submit', class: 'tool is-main' }, go)
  form.append(submit)
  form.addEventListener('submit', (event) => {
    event.preventDefault()
    void send(Object.fromEntries(inputs.map(({ name, input }) => [name, input.value])))
      .catch(() => null)
      .then((answer) => {
        if (answer?.kind !== 'made') {
          says.textContent = `That did not work: ${answer?.because ?? 'the desk gave no answer.'}`
          return
        }
        dialog.close()
        done(answer.file)
      })
  })
  const dialog = openDialog(title, form)
  inputs[0]?.input.select()
}
