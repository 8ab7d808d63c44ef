import type { FigureAnswer } from '../wire.ts'
import { ask } from './ask.ts'
import { byId, make } from './elements.ts'
import { type Session, stepAtCursor } from './session.ts'

/** Pictures that are dropped, pasted or picked are saved beside the procedure and shown at the cursor. */
export function startFigures(session: Session, says: (words: string, isBad: boolean) => void): void {
  const picker = make('input', {
    type: 'file',
    accept: '.png,.jpg,.jpeg,.svg',
    hidden: '',
    id: 'figure-file',
    'aria-label': 'Picture',
  })
  byId('dialogs').append(picker)
  byId('figure').addEventListener('click', () => picker.click())
  picker.addEventListener('change', () => {
    void takeAll([...(picker.files ?? [])])
    picker.value = ''
  })
  const takeAll = async (files: readonly File[]): Promise<void> => {
    for (const file of files) await take(file)
  }
  const take = async (file: File): Promise<void> => {
    const name = file.name === '' || file.name === 'image.png' ? nameHere() : file.name
    const answer = await ask<FigureAnswer>('figure', { file: session.file, name, base64: await base64Of(file) }).catch(
      () => null,
    )
    if (answer?.kind !== 'made')
      return says(`The picture was not taken: ${answer?.because ?? 'it is too large.'}`, true)
    const { view } = session
    const { insert, at, select } = figureLine(view.state.doc.toString(), view.state.selection.main.head, answer.path)
    view.dispatch({
      changes: { from: at, insert },
      selection: { anchor: at + select[0], head: at + select[1] },
      scrollIntoView: true,
      userEvent: 'input.figure',
    })
    view.focus()
    says('Now say what the picture shows, for those who cannot see it.', false)
  }
  const nameHere = (): string => `${stepAtCursor(session)?.title ?? 'picture'}.png`
  const { dom } = session.view
  dom.addEventListener(
    'paste',
    (event) => {
      const files = picturesIn(event.clipboardData)
      if (files.length === 0) return
      event.preventDefault()
      event.stopPropagation()
      void takeAll(files)
    },
    { capture: true },
  )
  const writing = byId('text')
  writing.addEventListener('dragover', (event) => {
    if (!event.dataTransfer?.types.includes('Files')) return
    event.preventDefault()
    writing.classList.add('is-dropped-on')
  })
  writing.addEventListener('dragleave', () => writing.classList.remove('is-dropped-on'))
  writing.addEventListener(
    'drop',
    (event) => {
      writing.classList.remove('is-dropped-on')
      const files = [...(event.dataTransfer?.files ?? [])]
      if (files.length === 0) return
      event.preventDefault()
      event.stopPropagation()
      const at = session.view.posAtCoords({ x: event.clientX, y: event.clientY })
      if (at !== null) session.view.dispatch({ selection: { anchor: at } })
      void takeAll(files)
    },
    { capture: true },
  )
}

function picturesIn(data: DataTransfer | null): readonly File[] {
  return [...(data?.files ?? [])].filter(({ type }) => type.startsWith('image/'))
}

/** The line of a figure goes below the line of the cursor, or below the block it stands in, as far in as the text of its step. */
export function figureLine(text: string, cursor: number, path: string) {
  const { at, line } = lineBelow(text, cursor)
  const inside = /^(\s*)(\d+\.\s+|- )?/.exec(line)
  const indent = ' '.repeat((inside?.[1]?.length ?? 0) + (inside?.[2]?.length ?? 0))
  const words = 'what it shows'
  const before = `\n\n${indent}![`
  return {
    at,
    insert: `${before}${words}](${path} "${words}")`,
    select: [before.length, before.length + words.length] as const,
  }
}

/** The end of the line at an offset; of the closing line, where that is inside a block or the front matter. */
function lineBelow(text: string, cursor: number): { readonly at: number; readonly line: string } {
  let closes: RegExp | null = null
  let start = 0
  for (const line of text.split('\n')) {
    const end = start + line.length
    const isMark: boolean =
      closes === null ? /^\s*(?:```|~~~)/.test(line) || (start === 0 && line === '---') : closes.test(line)
    if (isMark) closes = closes !== null ? null : line === '---' ? /^---\s*$/ : /^\s*(?:```|~~~)\s*$/
    if (end >= cursor && closes === null) return { at: end, line }
    start = end + 1
  }
  return { at: text.length, line: '' }
}

function base64Of(file: File): Promise<string> {
  return new Promise((read, failed) => {
    const reader = new FileReader()
    reader.onload = () => read(String(reader.result).replace(/^[^,]*,/, ''))
    reader.onerror = () => failed(reader.error)
    reader.readAsDataURL(file)
  })
}
