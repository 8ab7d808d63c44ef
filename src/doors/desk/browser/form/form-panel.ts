import type { ChangeDesc } from '@codemirror/state'
import type { Form, FormValue, Written } from '../../../../writing/forms/form.ts'
import { ask } from '../ask.ts'
import { button, byId, make, say } from '../elements.ts'
import { type Session, textOf } from '../session.ts'
import { freshId } from './field.ts'
import { pickView, view } from './field-views.ts'
import type { FormAnswer } from './put-in.ts'

export interface FormPanel {
  readonly show: (form: Form) => void
  readonly close: () => void
  /** The text changed; the form follows, unless the form itself changed it. */
  readonly followed: (changes: ChangeDesc, isByForm: boolean) => void
}

/** Marks a change of the text as made by the form. */
export const byForm = 'input.form'

/** One thing of the text as a form: what is filled in stands in the text at once, what is typed in the text stands in the form. */
export function startForm(session: Session): FormPanel {
  const panel = byId('form')
  let form: Form | null = null
  let value: FormValue = ''
  let named: string | null = null
  let offset = 0
  let timer = 0
  let question = 0

  const target = () => ({ file: session.file, text: textOf(session), ...(form?.target ?? {}), offset })
  const write = async (isAsked: boolean): Promise<void> => {
    if (form === null) return
    clearTimeout(timer)
    const asked = ++question
    const written = await ask<Written>('form-write', { ...target(), named, value })
    if (form === null || asked !== question || written === null) return
    const says = panel.querySelector('.form-says')
    if (says) says.textContent = written.kind === 'refused' ? written.because : ''
    if (written.kind === 'refused') return
    preview(written)
    if (!form.isThere && !isAsked) return
    const changes = written.changes.map(({ start, end, newText }) => ({ from: start, to: end, insert: newText }))
    if (changes.length > 0) session.view.dispatch({ changes, userEvent: byForm, scrollIntoView: false })
    const isNew = !form.isThere
    form = { ...form, isThere: true, target: { ...form.target, name: named } }
    if (isNew) {
      say(`${form.title} is in.`)
      end()
    }
  }
  const preview = (written: Extract<Written, { kind: 'changes' }>): void => {
    const line = panel.querySelector<HTMLElement>('.preview-line')
    if (line === null) return
    const text = written.changes.map(({ newText }) => newText.trim()).filter(Boolean)
    line.hidden = text.length === 0 || (form?.isThere ?? true)
    line.textContent = text.join('\n')
  }
  const changed = (): void => {
    clearTimeout(timer)
    timer = window.setTimeout(() => void write(false), 150)
  }
  const remove = async (): Promise<void> => {
    const written = await ask<Written>('form-remove', target())
    if (written?.kind === 'changes')
      session.view.dispatch({
        changes: written.changes.map((one) => ({ from: one.start, to: one.end, insert: one.newText })),
        userEvent: byForm,
      })
    close()
    session.view.focus()
  }
  const close = (): void => {
    form = null
    panel.hidden = true
    panel.replaceChildren()
  }
  const end = (): void => {
    const isThere = form?.isThere ?? false
    panel
      .querySelector('.form-end')
      ?.replaceChildren(
        ...(isThere
          ? [
              button('Done', () => leave(), 'tool is-main'),
              ...(form?.target.place === 'front-matter' ? [] : [button('Take it out', () => void remove(), 'tool')]),
            ]
          : [button('Put it in', () => void write(true), 'tool is-main'), button('Leave it', () => leave(), 'tool')]),
        make('p', { class: 'form-says', role: 'alert' }),
      )
  }
  const leave = (): void => {
    close()
    session.view.focus()
  }
  const draw = (): void => {
    if (form === null) return
    const body = view(form.shape, value, { id: freshId(), label: form.title, wants: '' }, (next) => {
      value = next
      changed()
    })
    panel.replaceChildren(
      make('div', { class: 'form-head' }, make('h2', { tabindex: '-1' }, form.title), button('Close', leave)),
      make('p', { class: 'about' }, form.help.replaceAll('`', '')),
      ...(form.isNamed ? [nameField(form)] : []),
      make('div', { class: 'form-body' }, body),
      make('p', { class: 'preview-line', hidden: '', 'aria-label': 'This will be written' }),
      make('div', { class: 'form-end' }),
    )
    end()
  }
  const nameField = ({ names, title }: Form): HTMLElement => {
    const id = freshId()
    const set = (next: FormValue): void => {
      named = typeof next === 'string' ? next.trim().replace(/\s+/g, '-') : null
      const known = names.find(({ name }) => name === named)
      if (known?.value && form !== null && !form.isThere) {
        value = known.value
        draw()
      }
      changed()
    }
    const label = { id, label: 'Name', wants: '' }
    const input = make('input', { id, type: 'text', autocomplete: 'off', 'aria-label': 'Name' })
    input.value = named ?? ''
    input.addEventListener('input', () => set(input.value))
    return make(
      'div',
      { class: 'form-field', 'data-field': 'name' },
      make('label', { for: id }, 'Name', make('span', { class: 'must' }, ' (needed)')),
      make(
        'p',
        { class: 'help' },
        `What it is called in this procedure, such as ${exampleName[title] ?? 'motor-bolts'}. No blanks.`,
      ),
      names.length > 0 ? pickView(names, false, named ?? '', label, set) : input,
    )
  }
  const reread = async (): Promise<void> => {
    if (form === null || !form.isThere) return
    const asked = ++question
    const answer = await ask<FormAnswer>('form-open', target())
    if (form === null || asked !== question || panel.contains(document.activeElement)) return
    if (!answer?.form?.isThere) return close()
    if (JSON.stringify(answer.form.value) === JSON.stringify(value)) return
    form = answer.form
    value = form.value
    draw()
  }
  panel.addEventListener('keydown', (event) => {
    if (event.key === 'Escape') leave()
  })
  return {
    close,
    show: (next) => {
      form = next
      value = next.value
      named = next.target.name
      offset = next.target.offset
      panel.hidden = false
      panel.scrollTop = 0
      draw()
      panel.querySelector<HTMLElement>('input, select, textarea')?.focus()
    },
    followed: (changes, isByForm) => {
      offset = changes.mapPos(offset, -1)
      if (isByForm || form === null) return
      clearTimeout(timer)
      timer = window.setTimeout(() => void reread(), 250)
    },
  }
}

const exampleName: Readonly<Record<string, string>> = {
  Tighten: 'motor-bolts',
  Measure: 'end-play',
  Check: 'start-tried',
  States: 'power',
  Zones: 'under-belt',
  Roles: 'fitter',
  Hazards: 'nip-point',
  Lift: 'hub',
}
