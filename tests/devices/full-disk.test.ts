import * as fs from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, beforeEach, expect, it, vi } from 'vitest'
import { writeFolder } from '../../src/devices/write-output.ts'

// A disk cannot be filled up, nor made read-only, on every machine that tests run on:
// here the third write fails as it would, with half of the file written.
let failure: string | null = null
let writes = 0
vi.mock('node:fs', async (original) => {
  const real = await original<typeof fs>()
  return {
    ...real,
    writeFileSync: (path: string, content: string) => {
      writes++
      if (failure === null || writes < 3) return real.writeFileSync(path, content)
      real.writeFileSync(path, content.slice(0, 1))
      throw Object.assign(new Error(failure), { code: failure })
    },
  }
})

const folder = fs.mkdtempSync(join(tmpdir(), 'witnessmark-full-'))
afterAll(() => fs.rmSync(folder, { recursive: true, force: true }))
beforeEach(() => {
  failure = null
  writes = 0
})

const known = ['checklist.pdf', 'page.html', 'steps.json']
const files = (text: string) => known.map((name) => ({ name, content: text }))

it.each([
  ['ENOSPC', 'the disk is full.'],
  ['EROFS', 'the disk is read-only.'],
  ['EACCES', 'you have no permission to write there.'],
])('keeps the older build whole when writing fails with %s', (code, because) => {
  const document = join(folder, code)
  writeFolder(document, files('old'), known)
  failure = code
  writes = 0
  expect(writeFolder(document, files('new'), known)).toEqual({
    kind: 'failed',
    path: join(document, 'steps.json'),
    because,
  })
  expect(fs.readdirSync(document)).toEqual(known)
  for (const name of known) expect(fs.readFileSync(join(document, name), 'utf8')).toBe('old')
})

it('leaves no folder behind where none was', () => {
  failure = 'ENOSPC'
  expect(writeFolder(join(folder, 'out/KRQ-1-A'), files('new'), known).kind).toBe('failed')
  expect(fs.existsSync(join(folder, 'out'))).toBe(false)
})
