import { afterEach, describe, expect, it } from 'vitest'
import type { Hands, MadeOutputs, Program } from '../../../src/doors/cli/program.ts'
import { progressBar } from '../../../src/doors/cli/progress-bar.ts'
import { stopwatch, timingsTable } from '../../../src/doors/cli/timings.ts'
import { toyProgram, workplace } from './toy-program.ts'

let place = workplace({})
afterEach(() => place.remove())

const document = (number: string) => `---\nnumber: ${number}\nrevision: A\n---\n# Title\n`
const six = Object.fromEntries([1, 2, 3, 4, 5, 6].map((index) => [`p/${index}.md`, document(`KRQ-${index}`)]))

function use(files: Record<string, string>) {
  place.remove()
  place = workplace(files)
  return place
}

/** Two workers that end in the opposite order, and one document that makes them fall over. */
function withHands(fails: string) {
  const log = { hired: 0, letGo: 0, atOnce: 0, most: 0 }
  const waiting: (() => void)[] = []
  const hands: Hands = {
    makeOutputs: async (...given) => {
      log.most = Math.max(log.most, ++log.atOnce)
      await new Promise<void>((go) => {
        waiting.push(go)
        setTimeout(() => waiting.pop()?.(), 1)
      })
      log.atOnce--
      if (given[0].file === fails) throw new Error('the worker fell over')
      return toyProgram.makeOutputs(...given)
    },
    letGo: async () => {
      log.letGo++
    },
  }
  const program: Program = {
    ...toyProgram,
    hireHands: () => {
      log.hired++
      return hands
    },
  }
  return { program, log }
}

describe('many procedures', () => {
  it('are made by several at once, and told in their own order with the same files', async () => {
    const alone = use(six)
    const serial = await alone.run(['build', 'p'])
    const names = alone.list('out')
    const texts = names.map((name) => alone.read(`out/${name}`))
    const together = use(six)
    const { program, log } = withHands('')
    const parallel = await together.run(['build', 'p'], program)
    expect(parallel.err).toBe(serial.err)
    expect(together.list('out')).toEqual(names)
    expect(names.map((name) => together.read(`out/${name}`))).toEqual(texts)
    expect(log).toMatchObject({ hired: 1, letGo: 1 })
    expect(log.most).toBeGreaterThan(1)
  })

  it('lose only the one whose worker fell over, and let the workers go', async () => {
    const { run, list } = use(six)
    const { program, log } = withHands('3.md')
    const result = await run(['build', 'p'], program)
    expect(result.status).toBe(1)
    expect(result.err).toContain('p/3.md: witnessmark itself failed while making the outputs')
    expect(result.err).toContain('5 of 6 procedures written to out.')
    expect(list('out').filter((name) => name.endsWith('page.html'))).toHaveLength(5)
    expect(log.letGo).toBe(1)
  })

  it('of which few are built are not worth a worker', async () => {
    const { run } = use({ 'a.md': document('KRQ-1'), 'b.md': document('KRQ-2') })
    const { program, log } = withHands('')
    await run(['build', '.'], program)
    expect(log.hired).toBe(0)
  })
})

describe('timings', () => {
  it('are said at the end when asked for, and nowhere else', async () => {
    const { run } = use({ 'a.md': document('KRQ-1'), 'b.md': document('KRQ-2') })
    const timed: Program = {
      ...toyProgram,
      makeOutputs: async (...given): Promise<MadeOutputs> => ({
        ...(await toyProgram.makeOutputs(...given)),
        timings: [{ what: 'page.html', milliseconds: given[0].file === 'a.md' ? 4 : 40 }],
      }),
    }
    const lines = (await run(['build', '.', '--timings'], timed)).err.split('\n')
    const table = lines.slice(lines.findIndex((line) => line.startsWith('  ms')))
    expect(table.find((line) => line.includes('page.html'))).toMatch(/^ {2}page\.html +2 +44 +22 +40 {2}b\.md$/)
    expect(table.map((line) => line.trim().split(/ {2,}/)[0]).filter(Boolean)).toEqual([
      'ms',
      'check',
      'page.html',
      'write to disk',
      'read what stands',
      'from start to end',
    ])
    expect((await run(['build', '.'], timed)).err).not.toContain('page.html  ')
  })

  it('count what failed, too', () => {
    let now = 0
    const watch = stopwatch(() => now)
    expect(() =>
      watch.time('check', 'a.md', () => {
        now = 7
        throw new Error('fell over')
      }),
    ).toThrow('fell over')
    expect(timingsTable(watch.timings, 9)).toContain('check')
    expect(watch.timings).toEqual([{ what: 'check', file: 'a.md', milliseconds: 7 }])
  })
})

describe('the bar', () => {
  it('is painted over itself, fits the line, and is gone before anything is said', () => {
    let shown = ''
    const bar = progressBar((text) => {
      shown += text
    }, 40)
    bar.show(1, 4, 'written, now a procedure with a very long name')
    bar.show(2, 4, 'b')
    bar.clear()
    bar.clear()
    const lines = shown.split('\r\u001b[K')
    expect(lines).toEqual(['', '######.................. 1 of 4 written', '############............ 2 of 4 b', ''])
  })

  it('is not there where nobody looks', () => {
    expect(() => progressBar(null, null).show(1, 2, 'a')).not.toThrow()
  })
})
