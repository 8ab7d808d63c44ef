import { describe, expect, it } from 'vitest'
import { firstPage } from '../../src/outputs/checklist/lay-out-first-page.ts'
import { phaseBlocks } from '../../src/outputs/checklist/lay-out-phases.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import { stepFileOf } from '../compile-text.ts'

/** What is printed must not claim more than the document knows, and must leave room for what is found. */
const step = (number: number, block: string): string => `${number}. Do it.\n   \`\`\`yaml\n   ${block}\n   \`\`\`\n`
const two = (first: string) => `${first}\n## Close {#close}\n\n1. Close it.\n`
const readingOf = (body: string, front = '') => {
  const [phase] = phaseBlocks(stepFileOf(body, {}, front), new Map())
  return phase?.steps[0]?.readings[0]
}

describe('the strip for a stop', () => {
  const look = 'Look for yourself'
  const states = '```yaml\nstates:\n  gate: { values: [open, shut], start: open, end: open }\n```\n\n'

  it('claims nothing where no state is followed, on paper and on the page', () => {
    const file = stepFileOf(two('## Work {#work}\n\n1. Look at it.\n'))
    expect(phaseBlocks(file, new Map())[0]?.stop?.nothingOpen).toContain(look)
    expect(pageHtml(file, { draft: false })).toContain(look)
  })

  it('says of the states it follows that they are as at the end', () => {
    const file = stepFileOf(two(`${states}## Work {#work}\n\n1. Look at it.\n`))
    expect(phaseBlocks(file, new Map())[0]?.stop).toEqual({
      stays: [],
      nothingOpen: 'Every state named in this procedure is as at the end of the job.',
      provedAgain: [],
    })
    expect(pageHtml(file, { draft: false })).not.toContain(look)
  })
})

describe('the blanks', () => {
  it('give a line to each thing that is found', () => {
    const found = (repeat: string) =>
      readingOf(
        `## Work {#work}\n\n${step(1, `repeat: { ${repeat} }\n   measure: { crack: "max 12 mm" }\n   else: continue`)}`,
      )
    expect(found('found: weld, at-most: 3')?.positions).toEqual(['weld 1', 'weld 2', 'weld 3'])
    expect(found('found: weld')?.positions).toHaveLength(6)
    expect(found('found: weld')?.notes.at(-1)).toEqual({ label: 'more than these', text: 'go on with a new sheet' })
  })

  it('ask for the unit that leads in the printed limit', () => {
    const body = `## Work {#work}\n\n${step(1, 'measure: { gap: "0.010 to 0.020 in" }\n   else: stop')}`
    expect(readingOf(body, 'print-units: [metric, inch]\n')).toMatchObject({
      unit: 'mm',
      limit: expect.stringMatching(/mm \(/),
    })
    expect(readingOf(body, 'print-units: [inch, metric]\n')).toMatchObject({
      unit: 'in',
      limit: expect.stringMatching(/in \(/),
    })
  })

  it('print a formula with the signs of print', () => {
    const body = `## Work {#work}\n\n${step(1, 'measure: { load: "max 1.25 * rating", rating: kg }\n   else: stop')}`
    expect(readingOf(body)?.notes).toContainEqual({ label: 'limit', text: 'max 1.25 × rating' })
  })
})

describe('what a copy is for', () => {
  const phases = (repeat: string) =>
    firstPage(
      stepFileOf(
        `\`\`\`yaml\ntables:\n  marks:\n    columns: [mark]\n    rows: [[A], [B]]\n\`\`\`\n\n## Work {#work}\n\n\`\`\`yaml\nrepeat: ${repeat}\n\`\`\`\n\n1. Look at it.\n`,
      ),
    )
  it('is a side or a position, and no row or pair', () => {
    expect(phases('{ each: [left, right] }')).toMatchObject({ positions: ['left', 'right'], positionWord: 'side' })
    expect(phases('{ each: [idler-1, idler-2] }')).toMatchObject({ positionWord: 'position' })
    expect(phases('{ rows: marks }').positions).toEqual([])
    expect(phases('{ pairs: [a and b] }').positions).toEqual([])
  })
})
