import { build } from 'esbuild'
import { expect, test } from 'vitest'
import { pageBundle } from '../../src/build/generate-browser-scripts.mjs'

interface Judging {
  readonly limitOfPrinted: (printed: unknown) => unknown
  readonly judge: (limit: unknown, reading: string) => { readonly verdict: string }
}

/** What a tablet has to load to judge readings by itself: limits from the step file, units, numbers as typed, sentences. */
test('judging alone, bundled as the page bundles it, stays under 25 000 bytes, and judges', async () => {
  const contents = [
    "import { judge, limitOfPrinted } from './src/quantities/judge-reading.ts'",
    'page.judging = { judge, limitOfPrinted }',
  ]
  const { outputFiles } = await build({
    ...pageBundle,
    stdin: { contents: contents.join('\n'), resolveDir: new URL('../../', import.meta.url).pathname, loader: 'ts' },
  })
  const [file] = outputFiles
  expect(file?.contents.byteLength).toBeLessThan(25_000)

  const page: { judging?: Judging } = {}
  new Function('page', file?.text ?? '')(page)
  const printed = { typed: 'max 3/8 in', form: 'max', lower: null, upper: { exact: '3/8', inclusive: true } }
  const limit = page.judging?.limitOfPrinted({ ...printed, aim: null, unit: 'in', ucum: '[in_i]', kind: 'length' })
  expect(['9.525 mm', '9.53 mm', '0.4', '3 kg'].map((read) => page.judging?.judge(limit, read).verdict)).toEqual([
    'in',
    'high',
    'high',
    'unreadable',
  ])
})
