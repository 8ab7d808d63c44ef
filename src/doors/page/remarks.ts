import { base64 } from '../../html/base64.ts'
import { digestOfBase64 } from '../../record/chain.ts'
import { all, make, one, say } from './elements.ts'
import { itemOf } from './paint-fields.ts'
import { write } from './respond.ts'
import { personOf } from './sign.ts'
import type { Work } from './work.ts'

/** Longest side of a photo as it is kept, in pixels: enough to read a dial, small enough for a tablet to keep many. */
const LONGEST_SIDE = 1600

/** Gives every step its panel for notes, photos and deviations; made here, because sixty of them would weigh on the file. */
export function offerRemarks(): void {
  for (const done of all('.done')) {
    const number = done.textContent?.replace(/ done$/, '') ?? ''
    const details = make('details', 'more remarks live', '')
    details.dataset.remarks = ''
    const summary = make('summary', '', 'Note, photo or deviation')
    summary.append(make('span', 'unseen', ` at ${number}`))
    details.append(summary)
    done.after(details)
  }
}

/** Fills the panel of a step for notes, photos and deviations when it is first opened. */
export function openRemarks(details: HTMLElement): void {
  if (one('form', details) !== null) return
  details.append(
    remarkForm('note', 'A note', 'Note', 'Write the note down', false),
    photoField(),
    remarkForm(
      'deviate',
      'Something done differently from what is written',
      'What was done',
      'Write the deviation down',
      true,
    ),
  )
}

function remarkForm(kind: string, title: string, label: string, press: string, wantsReason: boolean): HTMLElement {
  const form = make('form', 'remark-form', '')
  form.dataset.remark = kind
  form.append(make('h4', '', title), field(label, 'text'))
  if (wantsReason) form.append(field('Why', 'because'))
  form.append(field('Your name', 'name'))
  const button = make('button', 'plain', press)
  button.setAttribute('type', 'submit')
  form.append(button)
  return form
}

function field(words: string, name: string): HTMLElement {
  const label = make('label', 'field', words)
  const input = document.createElement(name === 'name' ? 'input' : 'textarea')
  input.name = name
  input.autocomplete = 'off'
  label.append(input)
  return label
}

function photoField(): HTMLElement {
  const label = make('label', 'field', 'A photo')
  const input = document.createElement('input')
  input.type = 'file'
  input.accept = 'image/*'
  input.setAttribute('capture', 'environment')
  input.dataset.photo = ''
  label.append(input)
  return label
}

export async function remark(work: Work, form: HTMLFormElement, fields: (name: string) => string): Promise<void> {
  const item = itemOf(form, work)
  if (item?.kind !== 'step') return
  const [text, because, name] = [fields('text'), fields('because'), fields('name')]
  const isDeviation = form.dataset.remark === 'deviate'
  if (text === '' || name === '' || (isDeviation && because === ''))
    return say(isDeviation ? 'Write what was done, why, and your name.' : 'Write the note, and your name.')
  const happening = isDeviation
    ? ({ kind: 'deviation', step: item.step, wait: null, text, because } as const)
    : ({ kind: 'note', step: item.step, text } as const)
  if (await write(work, happening, 'Written down.', [personOf(work, name)])) form.reset()
}

/** Keeps a photo on this device, smaller and without what the camera wrote into it. */
export async function addPhoto(work: Work, input: HTMLInputElement, file: File | undefined): Promise<void> {
  const item = itemOf(input, work)
  if (item?.kind !== 'step' || file === undefined) return
  const content = await smallerPhoto(file)
  input.value = ''
  if (content === null) return say('This file is no photo that can be read. Nothing was kept.')
  const photo = digestOfBase64(content)
  const bytes = Math.floor((content.replace(/=+$/, '').length * 3) / 4)
  await write(
    work,
    { kind: 'photo', step: item.step, photo, mediaType: 'image/jpeg', bytes },
    'Photo kept on this tablet.',
    undefined,
    new Map([[photo, content]]),
  )
}

async function smallerPhoto(file: File): Promise<string | null> {
  try {
    const picture = await createImageBitmap(file)
    const scale = Math.min(1, LONGEST_SIDE / Math.max(picture.width, picture.height))
    const canvas = document.createElement('canvas')
    canvas.width = Math.max(1, Math.round(picture.width * scale))
    canvas.height = Math.max(1, Math.round(picture.height * scale))
    canvas.getContext('2d')?.drawImage(picture, 0, 0, canvas.width, canvas.height)
    const blob = await new Promise<Blob | null>((resolve) => canvas.toBlob(resolve, 'image/jpeg', 0.8))
    return blob === null ? null : base64(new Uint8Array(await blob.arrayBuffer()))
  } catch {
    return null
  }
}
