type Child = Node | string | null

/** Makes an element. Everything an author wrote goes in as text, never as markup. */
export function make<Name extends keyof HTMLElementTagNameMap>(
  name: Name,
  attributes: Readonly<Record<string, string>> = {},
  ...children: readonly Child[]
): HTMLElementTagNameMap[Name] {
  const element = document.createElement(name)
  for (const [key, value] of Object.entries(attributes)) element.setAttribute(key, value)
  element.append(...children.filter((child) => child !== null))
  return element
}

/** Words with what is to be typed set apart: `` `like this` ``. */
export function withCode(text: string): readonly (HTMLElement | string)[] {
  return text.split(/(`[^`]+`)/).map((piece) => (/^`.+`$/.test(piece) ? make('code', {}, piece.slice(1, -1)) : piece))
}

export function button(words: string, press: () => void, className = 'act'): HTMLButtonElement {
  const element = make('button', { type: 'button', class: className }, words)
  element.addEventListener('click', press)
  return element
}

/** An element that the desk's own page has. */
export function byId(id: string): HTMLElement {
  const element = document.getElementById(id)
  if (element === null) throw new Error(`The page has no #${id}.`)
  return element
}

/** Said to who cannot see what changed. */
export function say(words: string): void {
  byId('spoken').textContent = words
}

/** A dialog that is taken away when it closes; the focus goes back to where it was. */
export function openDialog(title: string, ...body: readonly Child[]): HTMLDialogElement {
  const dialog = make('dialog', { 'aria-labelledby': 'dialog-title' })
  const close = button('Close', () => dialog.close())
  dialog.append(
    make('div', { class: 'dialog-head' }, make('h2', { id: 'dialog-title' }, title), close),
    make('div', { class: 'dialog-body' }, ...body),
  )
  for (const other of byId('dialogs').querySelectorAll('dialog')) other.close()
  byId('dialogs').append(dialog)
  dialog.addEventListener('close', () => dialog.remove())
  dialog.showModal()
  return dialog
}
