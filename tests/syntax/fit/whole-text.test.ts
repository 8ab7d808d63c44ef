import { describe, expect, it } from 'vitest'
import { plainValue } from '../../../src/syntax/block-node.ts'
import { fitFragment, fitProcedure } from '../../../src/syntax/fit-schema.ts'
import { readFragment } from '../../../src/syntax/read-fragment.ts'
import { readProcedure } from '../../../src/syntax/read-procedure.ts'
import type { WrittenBlock } from '../../../src/syntax/written.ts'
import { sourceText } from '../../../src/text/source-text.ts'

const plain = (block: WrittenBlock | null | undefined) =>
  block ? JSON.parse(JSON.stringify(plainValue(block.map))) : null

const text = `---
number: KRQ-EX-005
title: Change a return idler
revision: A
status: for-review
date: 2026-03-02
approvals: [shop-trainer, "safety-officer, date 2026-03-05"]
wrong-1: x
---

\`\`\`yaml
roles: [fitter]
wrong-2: x
\`\`\`

## Change {#change}

\`\`\`yaml
by: fitter
wrong-3: x
\`\`\`

1. Lift the old idler out.
   \`\`\`yaml
   handle: { idler: "22 kg, by 1" }
   wrong-4: x
   \`\`\`
   1. Put it on the timber.
      \`\`\`yaml
      takes: 2 min
      wrong-5: x
      \`\`\`

### Bent frame {#bent}

1. Straighten the frame.
   \`\`\`yaml
   else: stop
   wrong-6: x
   \`\`\`
`

describe('a whole text', () => {
  it('has every block fitted, wherever it stands', () => {
    const { value, findings } = fitProcedure(readProcedure(sourceText('p.md', text)).value)
    const pointedAt = findings.map(({ at }) => text.slice(at.start, at.end))
    expect(pointedAt).toEqual(['wrong-1', 'wrong-2', 'wrong-3', 'wrong-4', 'wrong-5', 'wrong-6'])
    expect(plain(value.frontMatter).approvals).toEqual([
      { role: 'shop-trainer' },
      { role: 'safety-officer', date: '2026-03-05' },
    ])
    expect(plain(value.block)).toEqual({ roles: { fitter: {} } })
    const [phase] = value.phases
    expect(plain(phase?.block)).toEqual({ by: ['fitter'] })
    expect(plain(phase?.steps[0]?.block)).toEqual({ handle: { idler: { load: '22 kg', by: '1' } } })
    expect(plain(phase?.steps[0]?.steps[0]?.block)).toEqual({ takes: { likely: '2 min' } })
    expect(plain(phase?.branches[0]?.steps[0]?.block)).toEqual({ else: { stop: '' } })
  })

  it('that is a fragment has its front matter and blocks fitted', () => {
    const fragment = `---
source: Kestrel Ridge Quarry isolation rules (fictional)
parameters: { drive: the drive to isolate }
paramters: x
---

\`\`\`yaml
where: out
\`\`\`

1. Isolate the (=drive).
   \`\`\`yaml
   locks: (=drive)
   wrong: x
   \`\`\`
`
    const { value, findings } = fitFragment(readFragment(sourceText('f.md', fragment)).value)
    expect(findings.map(({ name, at }) => [name, fragment.slice(at.start, at.end)])).toEqual([
      ['schema/unknown-entry', 'paramters'],
      ['schema/unknown-key', 'wrong'],
    ])
    expect(plain(value.frontMatter).parameters).toEqual({ drive: 'the drive to isolate' })
    expect(plain(value.block)).toEqual({ where: { everyone: ['out'] } })
    expect(plain(value.steps[0]?.block)).toEqual({ locks: [{ thing: '(=drive)' }] })
  })

  it('is not changed by being fitted', () => {
    const written = readProcedure(sourceText('p.md', text)).value
    const before = JSON.stringify(written)
    fitProcedure(written)
    expect(JSON.stringify(written)).toBe(before)
  })
})
