import type { EditorView } from '@codemirror/view'
import { make, withCode } from './elements.ts'
import { type FindingHooks, findingBody, kindTag } from './finding-acts.ts'
import { type Flaw, flawsIn } from './flaws.ts'

export interface Margin {
  /** Findings or the text changed. */
  readonly refresh: () => void
  /** Opens the first note of a line. */
  readonly openAt: (lineStart: number) => void
  readonly open: (flaw: Flaw | null) => void
}

/** Space between two notes, in pixels. */
const gap = 4

/** Notes beside the lines they are about, as a colleague writes them; the one that is open says what to do. */
export function makeMargin(view: EditorView, parent: HTMLElement, hooks: FindingHooks): Margin {
  const margin = make('aside', { class: 'margin', 'aria-label': 'Notes in the margin' })
  parent.append(margin)
  let openKey: string | null = null
  let drawn: { readonly flaw: Flaw; readonly card: HTMLElement }[] = []

  const place = (): void => {
    view.requestMeasure({
      key: margin,
      read: () => {
        const top = view.documentTop - margin.getBoundingClientRect().top
        return drawn.map(({ flaw, card }) => ({
          card,
          wanted: top + view.lineBlockAt(Math.min(flaw.from, view.state.doc.length)).top,
          height: card.offsetHeight,
        }))
      },
      write: (cards) => {
        let free = Number.NEGATIVE_INFINITY
        for (const { card, wanted, height } of cards) {
          const top = Math.max(wanted, free)
          card.style.top = `${Math.round(top)}px`
          free = top + height + gap
        }
      },
    })
  }
  const draw = (): void => {
    const held = margin.contains(document.activeElement) ? keyIn(document.activeElement) : null
    const { from, to } = view.viewport
    drawn = flawsIn(view)
      .filter((flaw) => flaw.finding.file === null && flaw.from >= from && flaw.from <= to)
      .sort((a, b) => a.from - b.from)
      .map((flaw) => ({ flaw, card: cardOf(flaw) }))
    margin.replaceChildren(...drawn.map(({ card }) => card))
    if (held !== null) focusKey(margin, held)
    place()
  }
  const cardOf = (flaw: Flaw): HTMLElement => {
    const { finding } = flaw
    const key = keyOf(flaw)
    const isOpen = key === openKey
    const head = make(
      'button',
      { type: 'button', class: 'note-head', 'aria-expanded': String(isOpen), 'data-key': key },
      make('span', { class: 'note-says' }, kindTag(finding), ' ', ...withCode(finding.message)),
    )
    head.addEventListener('click', () => {
      openKey = isOpen ? null : key
      draw()
      if (!isOpen) hooks.goTo(finding)
    })
    const card = make('div', { class: `note-card is-${finding.severity}${isOpen ? ' is-open' : ''}` }, head)
    if (isOpen) card.append(make('div', { class: 'note-body' }, ...findingBody(finding, hooks)))
    return card
  }
  view.scrollDOM.addEventListener('scroll', place)
  new ResizeObserver(place).observe(view.dom)
  return {
    refresh: draw,
    open: (flaw) => {
      openKey = flaw === null ? null : keyOf(flaw)
      draw()
    },
    openAt: (lineStart) => {
      const line = view.state.doc.lineAt(lineStart)
      const flaw = flawsIn(view).find(({ from }) => from >= line.from && from <= line.to)
      if (flaw === undefined) return
      openKey = keyOf(flaw)
      draw()
      focusKey(margin, openKey)
    },
  }
}

/** The same finding after more was typed. */
export function keyOf({ finding }: Flaw): string {
  return `${finding.name} ${finding.message}`
}

function keyIn(element: Element | null): string | null {
  return element?.closest('.note-card')?.querySelector('.note-head')?.getAttribute('data-key') ?? null
}

function focusKey(margin: HTMLElement, key: string): void {
  const heads = [...margin.querySelectorAll<HTMLElement>('.note-head')]
  heads.find((head) => head.dataset.key === key)?.focus({ preventScroll: true })
}
