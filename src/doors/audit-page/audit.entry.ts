/** Filter and sort of the audit: hides rows that do not fit the choices, and says how many. Nothing is loaded or sent. */
const choices = document.querySelector<HTMLFormElement>('[data-choices]')
const search = document.querySelector<HTMLInputElement>('[data-search]')
const selects = [...document.querySelectorAll<HTMLSelectElement>('[data-choice]')]
const said = document.querySelector<HTMLElement>('[data-said]')
const sections = [...document.querySelectorAll<HTMLElement>('section.table')]
const rows = [...document.querySelectorAll<HTMLTableRowElement>('section.table tbody tr')]
const texts = new Map(rows.map((row) => [row, (row.textContent ?? '').toLowerCase()]))

document.documentElement.classList.add('is-live')

function fits(row: HTMLTableRowElement, words: readonly string[]): boolean {
  const text = texts.get(row) ?? ''
  return (
    words.every((word) => text.includes(word)) &&
    selects.every((select) => {
      const has = row.dataset[select.dataset.choice ?? ''] ?? ''
      // A row of a matrix belongs to every role.
      return select.value === '' || has === '' || has.split('|').includes(select.value)
    })
  )
}

function show(): void {
  const words = (search?.value ?? '').toLowerCase().split(/\s+/).filter(Boolean)
  for (const row of rows) row.hidden = !fits(row, words)
  for (const section of sections) {
    const own = [...section.querySelectorAll<HTMLTableRowElement>('tbody tr')]
    const none = section.querySelector<HTMLElement>('[data-none]')
    if (none) none.hidden = own.some((row) => !row.hidden)
  }
  if (!said) return
  const shown = rows.filter((row) => !row.hidden).length
  const chosen = selects.filter(({ value }) => value !== '').map((select) => select.selectedOptions[0]?.text ?? '')
  const asked = [...words.map((word) => `“${word}”`), ...chosen].join(', ')
  said.textContent = asked === '' ? '' : `Only a part is shown: ${asked}. ${shown} of ${rows.length} lines.`
}

choices?.addEventListener('input', show)
choices?.addEventListener('submit', (event) => event.preventDefault())
choices?.addEventListener('reset', () => setTimeout(show))

const inOrder = new Intl.Collator(document.documentElement.lang || 'en', { numeric: true, sensitivity: 'base' })

/** Up, down, and back to the order of the audit. */
function sortBy(table: HTMLTableElement, column: number, heads: readonly HTMLTableCellElement[]): void {
  const head = heads[column]
  const body = table.tBodies[0]
  if (!head || !body) return
  const before = head.getAttribute('aria-sort')
  for (const one of heads) one.removeAttribute('aria-sort')
  const own = rows.filter((row) => row.parentElement === body)
  const textAt = (row: HTMLTableRowElement) => row.cells[column]?.textContent ?? ''
  if (before === 'descending') {
    body.append(...own)
    return
  }
  const turn = before === 'ascending' ? -1 : 1
  head.setAttribute('aria-sort', turn === 1 ? 'ascending' : 'descending')
  body.append(...own.toSorted((a, b) => turn * inOrder.compare(textAt(a), textAt(b))))
}

for (const table of document.querySelectorAll<HTMLTableElement>('section.table table')) {
  const heads = [...table.querySelectorAll<HTMLTableCellElement>('thead th')]
  heads.forEach((head, column) => {
    const button = document.createElement('button')
    button.type = 'button'
    button.className = 'sort'
    button.textContent = head.textContent
    button.addEventListener('click', () => sortBy(table, column, heads))
    // A button is not repeated at the head of each printed page; words are.
    const words = document.createElement('span')
    words.className = 'paper-head'
    words.textContent = head.textContent
    head.replaceChildren(button, words)
  })
}

export {}
