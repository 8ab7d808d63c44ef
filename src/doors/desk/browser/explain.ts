import { fetchJson } from './ask.ts'
import { make, openDialog, withCode } from './elements.ts'

/** The page of a kind of finding: why it matters, an example that is wrong and one that is right. */
export async function explain(name: string): Promise<void> {
  const answer = await fetchJson<{ readonly page: string }>(`explain?name=${encodeURIComponent(name)}`)
  if (answer === null) return
  openDialog('Why it matters', ...paragraphs(answer.page), make('p', { class: 'small' }, `Its name: ${name}`))
}

/** The few forms that these pages have: headings, paragraphs and examples. */
function paragraphs(page: string): readonly HTMLElement[] {
  const shown: HTMLElement[] = []
  let text: string[] = []
  let example: string[] | null = null
  let fence = ''
  const close = (): void => {
    if (text.length > 0) shown.push(make('p', {}, ...withCode(text.join(' '))))
    text = []
  }
  for (const line of page.split('\n')) {
    const opens = /^(`{3,}|~{3,})/.exec(line)?.[1]
    if (example !== null) {
      if (line.trim() === fence) {
        shown.push(make('pre', { tabindex: '0' }, example.join('\n')))
        example = null
      } else example.push(line)
    } else if (opens !== undefined) {
      close()
      fence = opens
      example = []
    } else if (line.startsWith('# ') || line.startsWith('<!--')) close()
    else if (line.startsWith('## ')) {
      close()
      shown.push(make('h3', {}, headings[line.slice(3).trim()] ?? line.slice(3)))
    } else if (line.trim() === '') close()
    else text.push(line.trim())
  }
  close()
  return shown
}

const headings: Readonly<Record<string, string>> = {
  Reported: 'This is reported',
  Fine: 'This is fine',
  'Accepting it': 'If it is all right here',
}
