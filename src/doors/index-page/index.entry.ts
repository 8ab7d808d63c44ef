/** The search of the index: hides what does not hold every word typed. Nothing is loaded or sent. */
const documents = [...document.querySelectorAll<HTMLElement>('[data-searched]')]
const search = document.querySelector<HTMLInputElement>('[data-search]')
const said = document.querySelector<HTMLElement>('[data-found]')

document.documentElement.classList.add('is-live')

search?.addEventListener('input', () => {
  const words = search.value.toLowerCase().split(/\s+/).filter(Boolean)
  let shown = 0
  for (const one of documents) {
    const searched = one.dataset.searched ?? ''
    one.hidden = !words.every((word) => searched.includes(word))
    if (!one.hidden) shown += 1
  }
  if (said) said.textContent = words.length === 0 ? '' : `${shown} of ${documents.length} shown`
})

export {}
