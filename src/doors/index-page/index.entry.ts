/** The search of the index: hides what does not hold every word typed or does not fit the choices. Nothing is loaded or sent. */
const documents = [...document.querySelectorAll<HTMLElement>('[data-searched]')]
const form = document.querySelector<HTMLFormElement>('[data-choices]')
const search = document.querySelector<HTMLInputElement>('[data-search]')
const selects = [...document.querySelectorAll<HTMLSelectElement>('[data-choice]')]
const said = document.querySelector<HTMLElement>('[data-found]')

document.documentElement.classList.add('is-live')

function show(): void {
  const words = (search?.value ?? '').toLowerCase().split(/\s+/).filter(Boolean)
  let shown = 0
  for (const one of documents) {
    const searched = one.dataset.searched ?? ''
    const chosen = selects.every(
      (select) =>
        select.value === '' || (one.dataset[select.dataset.choice ?? ''] ?? '').split('|').includes(select.value),
    )
    one.hidden = !(chosen && words.every((word) => searched.includes(word)))
    if (!one.hidden) shown += 1
  }
  const isAsked = words.length > 0 || selects.some(({ value }) => value !== '')
  if (said) said.textContent = isAsked ? `${shown} of ${documents.length} shown` : ''
}

form?.addEventListener('input', show)
form?.addEventListener('submit', (event) => event.preventDefault())
form?.addEventListener('reset', () => setTimeout(show))

export {}
