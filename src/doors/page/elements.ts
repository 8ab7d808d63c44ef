/** Elements of the page, by what their `data-…` attributes say. */

export function all<E extends HTMLElement = HTMLElement>(
  selector: string,
  within: ParentNode = document,
): readonly E[] {
  return [...within.querySelectorAll<E>(selector)]
}

export function one<E extends HTMLElement = HTMLElement>(selector: string, within: ParentNode = document): E | null {
  return within.querySelector<E>(selector)
}

/** The element whose `data-<name>` has exactly this value, whatever letters it is made of. */
export function byData<E extends HTMLElement = HTMLElement>(name: string, value: string): E | null {
  return one<E>(`[data-${name}="${CSS.escape(value)}"]`)
}

export function setText(element: Element | null, text: string): void {
  if (element !== null && element.textContent !== text) element.textContent = text
}

/** An element with text: authors' words only ever become text. */
export function make(tag: string, className: string, text: string): HTMLElement {
  const element = document.createElement(tag)
  if (className !== '') element.className = className
  element.textContent = text
  return element
}

/** The part of an element that shows what the job says there; made when first needed, before `before` or at the end. */
export function showIn(parent: Element | null, className: string, text: string, before: Element | null = null): void {
  if (parent === null) return
  const found = one(`:scope > .${className}`, parent)
  if (found !== null && text === '') found.remove()
  else if (found !== null) setText(found, text)
  else if (text !== '') parent.insertBefore(make('p', className, text), before)
}

/** Brings a place of the page under the reader's eyes and the keyboard's focus. */
export function goTo(element: HTMLElement | null): void {
  if (element === null) return
  for (let outer = element.parentElement; outer !== null; outer = outer.parentElement) {
    if (outer instanceof HTMLDetailsElement) outer.open = true
  }
  if (element.tabIndex < 0) element.tabIndex = -1
  element.scrollIntoView({ block: element.offsetHeight > window.innerHeight * 0.6 ? 'start' : 'center' })
  element.focus({ preventScroll: true })
}

/** Says something in the line above the "next" button; screen readers read it out. */
export function say(text: string): void {
  setText(one('[data-said]'), text)
}
