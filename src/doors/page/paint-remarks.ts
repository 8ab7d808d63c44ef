import { all, make, one } from './elements.ts'
import { itemOf } from './paint-fields.ts'
import type { Work } from './work.ts'

/** What was written down at each step, below it. */
export async function paintRemarks(work: Work): Promise<void> {
  const { notes, photos, deviations } = work.state()
  const shown = new Set([...notes, ...photos, ...deviations].map(({ step }) => step))
  for (const details of all('[data-remarks]')) {
    const item = itemOf(details, work)
    const step = item?.kind === 'step' ? item.step : ''
    const found = one(':scope > .remarked', details.parentElement ?? details)
    if (!shown.has(step)) {
      found?.remove()
      continue
    }
    const list = found ?? make('ul', 'remarked', '')
    if (found === null) details.before(list)
    const lines = [
      ...notes.filter((note) => note.step === step).map(({ at, by, text }) => `Note, ${who(by, at)}: ${text}`),
      ...deviations
        .filter((deviation) => deviation.step === step)
        .map(({ at, by, text, because }) => `Done differently, ${who(by, at)}: ${text} Why: ${because}`),
    ]
    const mine = photos.filter((photo) => photo.step === step)
    if (list.childElementCount === lines.length + mine.length) continue
    const kept = await work.store.photos(mine.map(({ photo }) => photo))
    list.replaceChildren(
      ...lines.map((line) => make('li', '', line)),
      ...mine.map(({ photo, mediaType, at, by }) => {
        const line = make('li', '', `Photo, ${who(by, at)}`)
        const content = kept.get(photo)
        if (content !== undefined) {
          const picture = document.createElement('img')
          picture.src = `data:${mediaType};base64,${content}`
          picture.alt = `Photo taken at this step, ${at.slice(11, 16)}`
          line.append(picture)
        } else line.append(' (kept elsewhere)')
        return line
      }),
    )
  }
}

function who(by: readonly { readonly name: string }[], at: string): string {
  return `${by.map(({ name }) => name).join(', ')} ${at.slice(0, 16).replace('T', ' ')}`
}
