import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { hireHands } from '../../../src/doors/cli/output-hands.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'

/** A worker that names the file it was handed, answers the first errand last, and falls over where it is told to. */
const script = `
import { parentPort } from 'node:worker_threads'
parentPort.on('message', ({ id, stepFile, choices }) => {
  if (stepFile.file === 'crash') process.exit(3)
  if (stepFile.file === 'throw') throw new Error('no memory left')
  if (stepFile.file === 'fail') return parentPort.postMessage({ id, failed: 'no page' })
  const files = [{ name: 'print', content: new TextEncoder().encode(stepFile.file + ' ' + choices.paper) }]
  setTimeout(() => parentPort.postMessage({ id, made: { files, complaints: [] } }), stepFile.file === 'a' ? 60 : 1)
})
`

let folder: string
let worker: URL
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), 'witnessmark-hands-'))
  worker = pathToFileURL(join(folder, 'worker.mjs'))
  writeFileSync(worker, script)
})
afterAll(() => rmSync(folder, { recursive: true, force: true }))

const named = (file: string) => ({ file }) as StepFile
const contentOf = ({ files }: { readonly files: readonly { readonly content: string | Uint8Array }[] }) =>
  new TextDecoder().decode(files[0]?.content as Uint8Array)

describe('workers', () => {
  it('give everyone the answer that is his, whoever ends first', async () => {
    const hands = hireHands(worker, 2)
    const files = ['a', 'b', 'c', 'd', 'e']
    const made = await Promise.all(files.map((file) => hands.makeOutputs(named(file), { paper: 'letter' } as never)))
    await hands.letGo()
    expect(made.map(contentOf)).toEqual(files.map((file) => `${file} letter`))
  })

  it('say what failed, and go on with the rest', async () => {
    const hands = hireHands(worker, 1)
    const ends = await Promise.allSettled(
      ['fail', 'b'].map((file) => hands.makeOutputs(named(file), { paper: 'a4' } as never)),
    )
    await hands.letGo()
    expect(ends.map((end) => (end.status === 'rejected' ? String(end.reason) : contentOf(end.value)))).toEqual([
      'Error: no page',
      'b a4',
    ])
  })

  it.each(['throw', 'crash'])('leave nobody waiting when one falls over: %s', async (file) => {
    const hands = hireHands(worker, 2)
    const ends = await Promise.allSettled(
      [file, 'b', file, 'c', 'd'].map((one) => hands.makeOutputs(named(one), { paper: 'a4' } as never)),
    )
    await hands.letGo()
    expect(ends).toHaveLength(5)
    expect(ends.filter(({ status }) => status === 'rejected').length).toBeGreaterThanOrEqual(2)
  })
})
