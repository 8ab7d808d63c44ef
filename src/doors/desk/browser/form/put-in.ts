import type { Form } from '../../../../writing/forms/form.ts'
import type { Menu, MenuItem } from '../../../../writing/forms/form-menu.ts'
import { ask } from '../ask.ts'
import { button, make, openDialog } from '../elements.ts'
import { type Session, textOf } from '../session.ts'

export interface FormAnswer {
  readonly form: Form | null
}

/** What stands under the cursor as a form; in prose, the menu of what can be put in. */
export async function openHere(session: Session, show: (form: Form) => void): Promise<void> {
  if (session.file === '') return
  const there = await ask<FormAnswer>('form-at', about(session))
  if (there?.form) return show(there.form)
  return putIn(session, show)
}

/** The menu of what can be put in at the cursor; first, what stands there already. */
export async function putIn(session: Session, show: (form: Form) => void): Promise<void> {
  if (session.file === '') return
  const here = about(session)
  const [menu, there] = await Promise.all([ask<Menu>('form-menu', here), ask<FormAnswer>('form-at', here)])
  if (menu === null) return
  const nearest = menu.places[0]?.title ?? ''
  const search = make('input', { type: 'search', id: 'find-kind', autocomplete: 'off' })
  const groups = make('div', { class: 'menu-groups' })
  const pick = async (item: MenuItem): Promise<void> => {
    const answer = await ask<FormAnswer>('form-open', { ...here, place: item.place, key: item.key, name: null })
    dialog.close()
    if (answer?.form) show(answer.form)
  }
  const list = (): void => {
    const wanted = search.value.toLowerCase()
    const shown = menu.groups
      .map(({ title, items }) => ({
        title,
        items: items.filter((item) => `${item.title} ${item.about} ${item.key}`.toLowerCase().includes(wanted)),
      }))
      .filter(({ items }) => items.length > 0)
    groups.replaceChildren(
      ...shown.map(({ title, items }) =>
        make(
          'div',
          {},
          make('h3', {}, title),
          make('ul', {}, ...items.map((item) => make('li', {}, line(item, pick)))),
        ),
      ),
    )
  }
  search.addEventListener('input', list)
  list()
  const dialog = openDialog(
    'Put in',
    make('p', {}, `At the cursor: ${nearest}.`),
    there?.form ? openThere(there.form, show, () => dialog.close()) : null,
    make('label', { for: 'find-kind' }, 'Find'),
    search,
    groups,
  )
  search.focus()
}

function openThere(form: Form, show: (form: Form) => void, close: () => void): HTMLElement {
  const name = form.target.name === null ? '' : ` “${form.target.name}”`
  const open = (): void => {
    close()
    show(form)
  }
  return button(`Open as a form: ${form.title}${name}`, open, 'tool is-main')
}

function line(item: MenuItem, pick: (item: MenuItem) => Promise<void>): HTMLElement {
  const press = button(item.title, () => void pick(item), '')
  press.dataset.key = item.key
  const where = item.place === 'document' ? 'Whole procedure. ' : item.place === 'phase' ? 'Phase. ' : ''
  press.append(make('small', {}, `${where}${item.about.replaceAll('`', '')}`))
  return press
}

export function about(session: Session) {
  return { file: session.file, text: textOf(session), offset: session.view.state.selection.main.head }
}
