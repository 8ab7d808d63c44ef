import { readFileSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'

const page = readFileSync('procedures/README.md', 'utf8')
const lessons = page
  .slice(page.indexOf('## Five lessons'), page.indexOf('## How a file is built'))
  .split(/^(?=### Lesson )/m)
  .slice(1)

/** Does what a lesson asks: the text that follows "below `this line` write:" goes below that line, as it stands there. */
function worked(file: string, lesson: string): string {
  const asked = [...lesson.matchAll(/^(?:In the first block, b|B)elow `(.+)` write:\n\n(`{3,4})\w+\n([\s\S]*?)^\2$/gm)]
  if (asked.length === 0) return /^````md\n([\s\S]*?)^````$/m.exec(lesson)?.[1] ?? ''
  return asked.reduce((text, [, line = '', fence, typed = '']) => {
    const lines = text.split('\n')
    const at = lines.indexOf(line)
    expect(at, line).toBeGreaterThan(-1)
    const apart = fence === '````' && !typed.startsWith(' ') ? [''] : []
    lines.splice(at + 1, 0, ...apart, ...typed.trimEnd().split('\n'))
    return lines.join('\n')
  }, file)
}

const files = lessons.reduce<string[]>((done, lesson) => done.concat(worked(done.at(-1) ?? '', lesson)), [])

/** The five lessons of the page for trainers, done as a reader does them. */
describe('the five lessons', () => {
  it('are five', () => expect(lessons).toHaveLength(5))

  it.each(lessons.map((lesson, index) => ({ lesson, index })))('lesson $index says what the checker says', (one) => {
    const file = 'procedures/dust-fan-belts/dust-fan-belts.md'
    const { findings } = compileProcedure(file, openLibrary(mapLibrary({ [file]: files[one.index] ?? '' })))
    const told = [...one.lesson.matchAll(/^> \*\*(\w+)\*\* (.+)$/gm)].map(
      ([, severity, text]) => `${severity}: ${text}`,
    )
    expect(findings.map(({ severity, message }) => `${severity}: ${message}`)).toEqual(told)
  })

  it('end with a procedure that is proved on every way', () => {
    const file = 'procedures/dust-fan-belts/dust-fan-belts.md'
    const { flow, stepFile } = compileProcedure(file, openLibrary(mapLibrary({ [file]: files[4] ?? '' })))
    expect([flow?.faults, flow?.verdict, stepFile === null]).toEqual([[], 'proved', false])
  })
})
