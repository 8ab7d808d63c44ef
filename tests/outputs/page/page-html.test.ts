import { createHash } from 'node:crypto'
import { describe, expect, it } from 'vitest'
import { pageHtml } from '../../../src/outputs/page/page-html.ts'
import { makeJob } from '../../../src/record/make-job.ts'
import { packJob, unpackJob } from '../../../src/record/packed-job.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { pumpJob } from '../../record/pump-job.ts'
import { sampleStepFile } from '../checklist/sample-step-file.ts'
import { phase, step, stepText } from '../checklist/step-file-parts.ts'
import { beltJob } from './page-sample.ts'

const policyOf = (html: string) => /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(html)?.[1] ?? ''
const inner = (html: string, tag: string) => new RegExp(`<${tag}>([\\s\\S]*?)</${tag}>`).exec(html)?.[1] ?? ''

describe('the page as a file', () => {
  const html = pageHtml(sampleStepFile, { draft: false })

  it('allows itself nothing but its own style and script', () => {
    // Content Security Policy Level 3, 2.3.1: hash-source = SHA-256 of the element's text, in base64.
    const hash = (text: string) => `'sha256-${createHash('sha256').update(text).digest('base64')}'`
    const policy = policyOf(html).replaceAll('&#x27;', "'").replaceAll('&#x3D;', '=')
    expect(policy.split('; ')).toEqual([
      "default-src 'none'",
      `style-src ${hash(inner(html, 'style'))}`,
      `script-src ${hash(inner(html, 'script'))}`,
      'img-src data:',
      "base-uri 'none'",
      "form-action 'none'",
      "require-trusted-types-for 'script'",
      "trusted-types 'none'",
    ])
    expect(html).not.toMatch(/\s(?:style|on\w+)="/)
  })

  it('is the same every time', () => {
    expect(pageHtml(sampleStepFile, { draft: false })).toBe(html)
  })

  it('stays under 300 kB for sixty steps', () => {
    // The steps of the sample that has one of everything, over and over.
    const [first] = beltJob.phases
    const steps = beltJob.phases.flatMap((one) => one.steps)
    const sixty = Array.from({ length: 60 }, (_, index) => {
      const like = steps[index % steps.length]
      return { ...(like ?? step('', '', '')), id: `p/${index}`, number: `1.${index + 1}` }
    })
    const large: StepFile = { ...beltJob, phases: [{ ...(first ?? phase('', '', '')), steps: sixty }] }
    expect(pageHtml(large, { draft: false }).length).toBeLessThan(300_000)
  })

  it('hands its script the whole job, whatever is left out on the way', () => {
    for (const stepFile of [sampleStepFile, beltJob, pumpJob()]) {
      const job = makeJob(stepFile)
      expect(unpackJob(JSON.parse(JSON.stringify(packJob(job))))).toEqual(job)
    }
  })

  it.each(['draft', 'for-review', 'withdrawn'] as const)(
    'has nothing to sign while it is %s, and says why',
    (status) => {
      const html = pageHtml({ ...beltJob, document: { ...beltJob.document, status } }, { draft: false })
      expect(html).not.toMatch(/<(?:script|button|input|form)/)
      expect(html).toMatch(
        status === 'withdrawn' ? /WITHDRAWN[\s\S]*Do not work from it/ : /NOT FOR USE[\s\S]*worked from or signed/,
      )
    },
  )

  it('keeps what an author wrote apart from what a browser reads', () => {
    const text = '<b>5 < 6</b> & "quoted" {{this}}'
    const html = pageHtml(
      {
        ...beltJob,
        phases: [
          phase('p', '1', text, { steps: [step('p/s', '1.1', '')].map((one) => ({ ...one, text: stepText(text) })) }),
        ],
      },
      { draft: false },
    )
    expect(html).toContain('&lt;b&gt;5 &lt; 6&lt;/b&gt; &amp; &quot;quoted&quot; {{this}}')
    expect(html).not.toContain('<b>5')
  })
})
