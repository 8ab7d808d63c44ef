import type { StepMark } from '../wire.ts'
import { ask, withFile } from './ask.ts'
import { byId, make } from './elements.ts'
import type { Preview } from './preview.ts'
import type { Session } from './session.ts'

type SheetAnswer =
  | {
      readonly kind: 'made'
      readonly pages: number
      /** Where each step came to stand: page from 1, y in points from the top of the page. */
      readonly steps: readonly { readonly number: string; readonly page: number; readonly y: number }[]
    }
  | { readonly kind: 'failed'; readonly because: string }

/** How long nothing is typed before the sheet is set anew, in milliseconds: setting it takes about a second. */
const quiet = 700

/** The printed sheet, page below page, set anew a while after the last change, as long as it is looked at. */
export function startSheet(session: Session): Preview & { readonly look: (isLooked: boolean) => void } {
  const panel = byId('panel-sheet')
  const says = byId('sheet-says')
  const picture = make('img', { class: 'sheet', alt: 'The printed sheet, page below page' })
  let isLooked = false
  let isStale = true
  let timer = 0
  let set: Extract<SheetAnswer, { kind: 'made' }> | null = null
  let step: StepMark | null = null
  picture.hidden = true
  panel.append(picture)
  picture.addEventListener('load', () => show())

  const typeset = async (): Promise<void> => {
    isStale = false
    const { file } = session
    const answer = await ask<SheetAnswer>('sheet', { file }).catch(() => null)
    if (file !== session.file) return
    set = answer?.kind === 'made' ? answer : null
    picture.hidden = set === null
    says.hidden = set !== null
    if (set === null) says.textContent = answer?.kind === 'failed' ? answer.because : 'There is nothing to print yet.'
    else picture.src = withFile('sheet.svg', file, `&look=${Date.now()}`)
  }
  const show = (): void => {
    const mark = set?.steps.find(({ number }) => number === step?.number)
    if (set === null || mark === undefined || !isLooked) return
    const page = picture.offsetHeight / set.pages
    const top = picture.offsetTop + page * (mark.page - 1 + mark.y / heightOf(picture, set.pages))
    if (top < panel.scrollTop + 20 || top > panel.scrollTop + panel.clientHeight * 0.7)
      panel.scrollTop = top - panel.clientHeight * 0.25
  }
  const due = (): void => {
    clearTimeout(timer)
    if (isLooked && isStale) timer = window.setTimeout(() => void typeset(), quiet)
  }
  return {
    refresh: () => {
      isStale = true
      due()
    },
    clear: () => {
      set = null
      picture.hidden = true
      picture.removeAttribute('src')
      says.hidden = false
      says.textContent = 'The printed sheet is being set…'
    },
    show: (next) => {
      step = next
      show()
    },
    look: (now) => {
      isLooked = now
      if (now && isStale) void typeset()
      else if (now) show()
    },
  }
}

/** Points from top to bottom of one page: the picture is as wide and high as the paper. */
function heightOf(picture: HTMLImageElement, pages: number): number {
  const points = 3 / 4
  return (picture.naturalHeight * points) / pages
}
