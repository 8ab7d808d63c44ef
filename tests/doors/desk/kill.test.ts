import { type ChildProcess, spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, readFileSync, rmSync, utimesSync, writeFileSync } from 'node:fs'
import { readdir } from 'node:fs/promises'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { build } from 'esbuild'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { libraryOnDisk } from '../../../src/devices/library-on-disk.ts'
import { removeCutOffSaves } from '../../../src/doors/desk/server/procedure-files.ts'

const kills = process.env.WITNESSMARK_LONG === '1' ? 200 : 6

let root: string
let program: string

beforeAll(async () => {
  root = mkdtempSync(join(tmpdir(), 'witnessmark-kill-'))
  program = join(root, 'program.mjs')
  await build({
    entryPoints: ['tests/doors/desk/save-server.ts'],
    outfile: program,
    bundle: true,
    format: 'esm',
    platform: 'node',
    logLevel: 'silent',
  })
})
afterAll(() => rmSync(root, { recursive: true, force: true }))

describe('a desk that is killed while it saves', () => {
  it(`loses no file and cuts none off, ${kills} times`, async () => {
    const library = join(root, 'library')
    mkdirSync(join(library, 'a'), { recursive: true })
    const file = 'a/a.md'
    const path = join(library, file)
    writeFileSync(path, `${'0'.repeat(79)}\n`.repeat(4000))
    const seen = new Set<string>()
    let cutOff = 0
    for (let kill = 0; kill < kills; kill++) {
      const child = spawn(process.execPath, [program, library, file], { stdio: ['ignore', 'pipe', 'inherit'] })
      await begun(child)
      // Somewhere in a save: each takes a few milliseconds, and no two kills fall at the same point of one.
      await new Promise((waited) => setTimeout(waited, 5 + ((kill * 7.3) % 40)))
      child.kill('SIGKILL')
      await new Promise((ended) => child.once('exit', ended))
      const text = readFileSync(path, 'utf8')
      const letter = text[0] ?? ''
      seen.add(letter)
      expect(text === `${letter.repeat(79)}\n`.repeat(4000)).toBe(true)
      cutOff += (await readdir(join(library, 'a'))).filter((name) => name.startsWith('.part-')).length
      await tidyUp(library, file)
    }
    // It did write, and some kills did fall into a save.
    expect(seen.size).toBeGreaterThan(1)
    if (kills > 50) expect(cutOff).toBeGreaterThan(0)
  }, 900_000)
})

/** What a save leaves that was cut off is taken away later, and never a file of anybody’s. */
async function tidyUp(library: string, file: string): Promise<void> {
  const folder = join(library, 'a')
  const parts = (await readdir(folder)).filter((name) => name.startsWith('.part-'))
  const shelf = { root: library, reader: libraryOnDisk(library), folder: '', files: () => [file] }
  removeCutOffSaves(shelf, Date.now())
  expect((await readdir(folder)).filter((name) => name.startsWith('.part-'))).toEqual(parts)
  for (const part of parts) utimesSync(join(folder, part), 1, 1)
  removeCutOffSaves(shelf, Date.now())
  expect(await readdir(folder)).toEqual(['a.md'])
}

function begun(child: ChildProcess): Promise<void> {
  return new Promise((ready) => child.stdout?.once('data', () => ready()))
}
