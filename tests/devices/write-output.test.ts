import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  utimesSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { removeBuild, removeLeftovers, writeFile, writeFolder } from '../../src/devices/write-output.ts'

let folder = ''
let out = ''
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-write-'))
  out = join(folder, 'out')
})
afterEach(() => rmSync(folder, { recursive: true, force: true }))

const known = ['checklist.pdf', 'page.html', 'steps.json']
const sentence = (answer: ReturnType<typeof writeFile>) =>
  answer.kind === 'failed' ? `${answer.path.replace(folder, '<folder>').slice(0, 40)}: ${answer.because}` : answer.kind

describe('writing outputs', () => {
  it('writes a folder, takes away what is stale and leaves what people keep there', () => {
    const document = join(out, 'KRQ-1-A')
    expect(
      writeFolder(
        document,
        [
          { name: 'checklist.pdf', content: new Uint8Array([37]) },
          { name: 'steps.json', content: '{}' },
        ],
        known,
      ).kind,
    ).toBe('written')
    writeFileSync(join(document, 'record of 3 March.json'), 'signed')
    expect(writeFolder(document, [{ name: 'steps.json', content: '{"new":1}' }], known).kind).toBe('written')
    expect(readdirSync(document)).toEqual(['record of 3 March.json', 'steps.json'])
    expect(readFileSync(join(document, 'steps.json'), 'utf8')).toBe('{"new":1}')
    expect(readdirSync(out)).toEqual(['KRQ-1-A'])
    removeBuild(document, known)
    expect(readdirSync(document)).toEqual(['record of 3 March.json'])
    rmSync(join(document, 'record of 3 March.json'))
    removeBuild(document, known)
    expect(existsSync(document)).toBe(false)
  })

  it('says in one sentence why it could not write, and leaves nothing half done', () => {
    writeFileSync(join(folder, 'file'), 'in the way')
    mkdirSync(join(out, 'KRQ-2-A/page.html'), { recursive: true })
    writeFileSync(join(out, 'KRQ-2-A/steps.json'), 'old')
    const sentences = [
      writeFile(join(folder, 'file/index.html'), 'x'),
      writeFolder(join(folder, 'file'), [{ name: 'steps.json', content: 'new' }], known),
      writeFolder(
        join(out, 'KRQ-2-A'),
        [
          { name: 'steps.json', content: 'new' },
          { name: 'page.html', content: 'x' },
        ],
        known,
      ),
      writeFile(join(out, `${'long'.repeat(100)}.html`), 'x'),
      // A part of the running Linux that no one may write to, not even root.
      writeFile('/proc/index.html', 'x'),
      writeFile('/proc/none/index.html', 'x'),
    ].map(sentence)
    expect(sentences.join('\n')).toMatchInlineSnapshot(`
      "<folder>/file: a file stands where a folder is wanted. Move it away, or name another folder with --out.
      <folder>/file: a file stands where a folder is wanted. Move it away, or name another folder with --out.
      <folder>/out/KRQ-2-A/page.html: a folder of that name stands in the way.
      <folder>/out/longlonglonglonglonglonglon: the name is too long for the disk.
      /proc: no folder can be made there.
      /proc/none: no folder can be made there."
    `)
    expect(readFileSync(join(out, 'KRQ-2-A/steps.json'), 'utf8')).toBe('old')
    expect(readFileSync(join(folder, 'file'), 'utf8')).toBe('in the way')
    expect(readdirSync(out)).toEqual(['KRQ-2-A'])
    expect(readdirSync(folder).sort()).toEqual(['file', 'out'])
  })

  it('takes away old leftovers of a build that was cut off, and not those of one that runs', () => {
    const now = Date.now()
    for (const name of ['.part-old', '.part-new', 'KRQ-1-A/.part-old']) mkdirSync(join(out, name), { recursive: true })
    for (const name of ['.part-old', 'KRQ-1-A/.part-old'])
      utimesSync(join(out, name), now / 1000 - 7200, now / 1000 - 7200)
    removeLeftovers(out, now)
    removeLeftovers(join(folder, 'none'), now)
    expect(readdirSync(out, { recursive: true }).sort()).toEqual(['.part-new', 'KRQ-1-A'])
  })
})
