import type { Painter } from '../../findings/as-text.ts'

const fence = /^(?<ticks>`{3,}|~{3,})/
/** For the runner that tests the examples, not for people. */
const mark = /^<!-- .* -->$/

/** A page of Markdown laid out for a terminal: headings strong, examples set in, marks of the test runner left out. */
export function pageAsText(page: string, painter: Painter): string {
  const lines: string[] = []
  let openFence: string | null = null
  for (const line of page.trimEnd().split('\n')) {
    const ticks = fence.exec(line)?.groups?.ticks
    if (openFence !== null) {
      // Only a fence at least as long closes; a shorter one belongs to the example.
      if (ticks?.startsWith(openFence) && line.trim() === ticks) openFence = null
      else lines.push(line === '' ? '' : `    ${line}`)
    } else if (ticks !== undefined) openFence = ticks
    else if (line.startsWith('#')) lines.push(painter.strong(line.replace(/^#+ /, '')))
    else if (!mark.test(line)) lines.push(line)
  }
  return `${lines.join('\n').replace(/\n{3,}/g, '\n\n')}\n`
}
