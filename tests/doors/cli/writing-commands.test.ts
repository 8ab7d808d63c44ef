import { renameSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { afterEach, describe, expect, it } from 'vitest'
import { runCommand } from '../../../src/doors/cli/command-line.ts'
import { seen, toyProgram, workplace } from './toy-program.ts'

let place = workplace({})
afterEach(() => place.remove())
const use = (files: Record<string, string | Uint8Array>) => {
  place.remove()
  place = workplace(files)
  return place
}

const loose = '---\nnumber:   KRQ-1\nrevision: A\n---\n\n## A\n\n```yaml\nby:  fitter\n```\n'
const laidOut = loose.replace('number:   ', 'number: ').replace('by:  ', 'by: ')

describe('witnessmark format', () => {
  it('lays out what is laid out otherwise, and says which', async () => {
    const { run, read } = use({ 'a.md': loose, 'b.md': laidOut, 'c.md': '---\na: [\n---\n' })
    expect(seen(await run(['format', '--check', '.']))).toBe(
      'a.md\n———\n3 procedures looked at: 1 to be laid out.\n——— exit 1',
    )
    expect(read('a.md')).toBe(loose)
    expect(seen(await run(['format', '.']))).toBe('a.md\n———\n3 procedures looked at: 1 laid out anew.\n——— exit 0')
    expect(read('a.md')).toBe(laidOut)
    expect(seen(await run(['format', '--check', '.']))).toBe(
      '———\n3 procedures looked at: all laid out as usual.\n——— exit 0',
    )
  })

  it('says what it cannot do', async () => {
    const { run } = use({ 'a.md': Uint8Array.of(0xff, 0xfe, 0x41), 'keep/x.txt': '' })
    expect(seen(await run(['format', 'a.md']))).toContain('a.md could not be laid out: it is not UTF-8 text.\n')
    expect((await run(['format', 'nowhere.md'])).status).toBe(2)
  })
})

describe('witnessmark new', () => {
  const machine =
    'source: Invented.\nname: fan\nenergies:\n  supply: { kind: electrical, magnitude: 400 V }\nisolation-points:\n  fan-isolator: { what: isolator, energy: supply }\n'

  it('writes a procedure in a folder of its own, and never over another', async () => {
    const { run, read } = use({
      'witnessmark.yaml': 'site: Kestrel Ridge Quarry\n',
      'shared/machines/fan.yaml': machine,
    })
    const typed = [
      'new',
      '--title',
      'Dust fan: change the belts',
      '--kind',
      'replace',
      '--machine',
      'fan',
      '--isolation',
      '--guard',
    ]
    const made = await run(typed)
    const file = 'procedures/dust-fan-change-the-belts/dust-fan-change-the-belts.md'
    expect(made).toMatchObject({ status: 0, out: `${file}\n` })
    expect(read(file)).toContain('locks: [fan-isolator]')
    expect(read(file)).toContain('removes: [guard]')
    expect(seen(await run(typed))).toBe(
      `———\nerror: ${file} is there already, and nothing was changed. Give another title, or name a file: witnessmark new other-name.md\n——— exit 2`,
    )
  })

  it('takes a file or folder by name', async () => {
    const { run, has } = use({})
    expect((await run(['new', 'jobs/fan.md', '--title', 'Fan'])).status).toBe(0)
    expect((await run(['new', 'jobs', '--title', 'Fan: look'])).status).toBe(0)
    expect(['jobs/fan.md', 'jobs/fan-look/fan-look.md'].map(has)).toEqual([true, true])
  })

  it.each([
    [['new'], /a title is wanted/],
    [['new', '--title', 'X', '--kind', 'break'], /Allowed choices are inspect, replace, adjust, service/],
    [['new', '--title', 'X', '--machine', 'fam'], /no machine file shared\/machines\/fam\.yaml\. Did you mean fan\?/],
  ])('%j is wrong use', async (typed, says) => {
    const { run, list } = use({ 'witnessmark.yaml': '', 'shared/machines/fan.yaml': machine })
    const { status, err } = await run(typed)
    expect([status, err]).toEqual([2, expect.stringMatching(says)])
    expect(list('procedures')).toEqual([])
  })
})

describe('witnessmark watch', () => {
  const document = (number: string, more = '') => `---\nnumber: ${number}\nrevision: A\n---\n# Title\n\n${more}\n`

  it('builds again what is saved, however it is saved, and ends when it is told to', async () => {
    const { folder, has, put } = use({
      'witnessmark.yaml': '',
      'procedures/a/a.md': document('KRQ-1'),
      'procedures/b/b.md': document('KRQ-2'),
      'shared/roles/roles.yaml': 'x: y\n',
    })
    let told = ''
    const add = (text: string) => {
      told += text
    }
    const surroundings = {
      folder,
      print: add,
      say: add,
      isTerminal: false,
      columns: 100,
      noColour: true,
      now: Date.now,
    }
    const ended = runCommand(['watch', 'procedures'], surroundings, toyProgram)
    const until = async (words: string) => {
      for (let tries = 0; tries < 400 && !told.includes(words); tries++)
        await new Promise((next) => setTimeout(next, 50))
      expect(told).toContain(words)
      const before = told
      told = ''
      return before
    }
    expect(await until('Ctrl-C ends it.')).toContain('2 of 2 procedures written to out.')
    // The disk is watched a moment after it is said.
    await new Promise((next) => setTimeout(next, 500))
    put('procedures/a/a.md', document('KRQ-1', 'It is WRONG.'))
    const wrong = await until('0 of 1 procedure written')
    expect(wrong).toMatch(/^\n\d\d:\d\d:\d\d procedures\/a\/a\.md changed\.\n/)
    expect(wrong).toContain('procedures/a/a.md:7:7 error toy/wrong')
    expect(has('out/KRQ-1-A/page.html')).toBe(false)

    // As editors save: written beside, and renamed over it.
    writeFileSync(join(folder, 'procedures/a/a.md~'), document('KRQ-1', 'Right.'))
    renameSync(join(folder, 'procedures/a/a.md~'), join(folder, 'procedures/a/a.md'))
    await until('1 of 1 procedure written')

    put('shared/roles/roles.yaml', 'x: z\n')
    expect(await until('2 of 2 procedures written')).toContain('shared/roles/roles.yaml changed.')
    process.emit('SIGINT')
    expect(await ended).toBe(0)
  })

  it('is wrong use where there is nothing to watch', async () => {
    expect((await use({}).run(['watch', 'nowhere'])).status).toBe(2)
  })
})
