import type { CheckAnswer, StepMark } from '../wire.ts'
import { fetchText, withFile } from './ask.ts'
import { byId, make } from './elements.ts'
import type { Session } from './session.ts'

export interface Preview {
  /** There is a new answer: what can be seen is brought up to it. */
  readonly refresh: (answer: CheckAnswer) => void
  /** Another procedure is open. */
  readonly clear: () => void
  readonly show: (step: StepMark | null) => void
}

/** How long no new findings come before the page is brought up to the text, in milliseconds: findings go first. */
const pageQuiet = { least: 150, most: 2000 }

/** The real page in a frame, kept up with the text; only phases that changed are put in anew, so that nothing jumps. */
export function startPreview(session: Session): Preview {
  const frame = make('iframe', { title: 'The page as the technician gets it', sandbox: 'allow-same-origin' })
  const empty = byId('page-empty')
  const says = byId('seen-says')
  let step: StepMark | null = null
  let isLoaded = false
  let isBusy = false
  let isDue = false
  let timer = 0
  let quiet = pageQuiet.least

  const load = async (): Promise<void> => {
    if (isBusy) {
      isDue = true
      return
    }
    isBusy = true
    isDue = false
    const { file } = session
    const started = performance.now()
    try {
      if (isLoaded) {
        const html = await fetchText(withFile('page', file))
        if (html !== null && file === session.file) bringUp(frame, html)
      } else if (session.answer?.page !== 'none') {
        await loadFrame(frame, withFile('page', file))
        const page = frame.contentDocument
        isLoaded = page?.querySelector('main') != null
        if (page && isLoaded) {
          asWorked(page)
          empty.hidden = true
        }
        frame.hidden = !isLoaded
      }
    } catch {
      // The server has gone, and the page says so already.
    }
    isBusy = false
    // A long page takes its time, in which nothing else is answered: the longer it takes, the longer a pause it waits for.
    quiet = Math.min(pageQuiet.most, Math.max(pageQuiet.least, 2 * (performance.now() - started)))
    scroll()
    if (isDue) await load()
  }
  const scroll = (): void => {
    if (step === null) return
    showInFrame(frame, step.anchor)
  }
  frame.hidden = true
  byId('panel-page').append(frame)
  return {
    refresh: (answer) => {
      tell(says, answer)
      clearTimeout(timer)
      timer = window.setTimeout(() => void load(), isLoaded ? quiet : 0)
    },
    clear: () => {
      isLoaded = false
      step = null
      frame.hidden = true
      empty.hidden = false
    },
    show: (next) => {
      if (next?.anchor === step?.anchor) return
      step = next
      scroll()
    },
  }
}

function tell(says: HTMLElement, answer: CheckAnswer): void {
  says.classList.toggle('is-bad', answer.page !== 'ready')
  const errors = answer.findings.filter(({ severity }) => severity === 'error').length
  says.textContent =
    answer.page === 'ready' ? '' : `${errors === 1 ? '1 error' : `${errors} errors`}: not to be printed yet`
}

function loadFrame(frame: HTMLIFrameElement, address: string): Promise<void> {
  return new Promise((loaded) => {
    frame.addEventListener('load', () => loaded(), { once: true })
    frame.src = address
    frame.hidden = false
  })
}

/** No script runs in the frame; the page is shown as it looks where its script runs. */
function asWorked(page: Document): void {
  page.documentElement.classList.add('is-live')
  for (const other of page.querySelectorAll('noscript, script')) other.remove()
}

/** Replaces only what differs, level by level. */
function bringUp(frame: HTMLIFrameElement, html: string): void {
  const page = frame.contentDocument
  if (page === null) return
  const next = new DOMParser().parseFromString(html.replace(/<style>[\s\S]*?<\/style>/g, ''), 'text/html')
  asWorked(next)
  match(page, page.body, next.body)
}

function match(page: Document, old: Element, next: Element): void {
  if (old.isEqualNode(next)) return
  const sameShape =
    old.tagName === next.tagName && old.id === next.id && old.children.length > 0 && next.children.length > 0
  const holdsText = [...old.childNodes, ...next.childNodes].some(
    (node) => node.nodeType === Node.TEXT_NODE && node.textContent?.trim() !== '',
  )
  if (!sameShape || holdsText) {
    old.replaceWith(page.importNode(next, true))
    return
  }
  for (const { name } of [...old.attributes]) if (!next.hasAttribute(name)) old.removeAttribute(name)
  for (const { name, value } of next.attributes) if (old.getAttribute(name) !== value) old.setAttribute(name, value)
  const olds = [...old.children]
  const nexts = [...next.children]
  for (const [index, child] of nexts.entries()) {
    const before = olds[index]
    if (before === undefined) old.append(page.importNode(child, true))
    else match(page, before, child)
  }
  for (const left of olds.slice(nexts.length)) left.remove()
}

/** The step whose outline was drawn last, to take it away again. */
const outlined = new WeakMap<HTMLIFrameElement, HTMLElement>()

function showInFrame(frame: HTMLIFrameElement, anchor: string): void {
  const target = frame.contentDocument?.getElementById(anchor)
  outlined.get(frame)?.style.removeProperty('outline')
  if (!target) return
  outlined.set(frame, target)
  target.style.outline = '4px solid #0b8fa6'
  const details = target.closest('details')
  if (details !== null) details.open = true
  const { top, bottom } = target.getBoundingClientRect()
  const height = frame.clientHeight
  if (top >= height * 0.1 && bottom <= height * 0.9) return
  target.scrollIntoView({ block: bottom - top > height * 0.8 ? 'start' : 'center' })
}
