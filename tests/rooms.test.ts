import { describe, expect, it } from 'vitest'
import { catalogue } from '../src/catalogue.ts'
import { compileProcedure, openLibrary } from '../src/compile.ts'
import type { Finding } from '../src/findings/finding.ts'
import { faultPageFiles, type PageExample, readPage } from './fault-pages.ts'
import { mapLibrary } from './map-library.ts'

/** What every example finds in its library: one figure, and nothing that an example could rest on by accident. */
const figure =
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><title>A blade</title><path d="M1 8 8 1"/></svg>'
const surroundings = { 'procedures/example/figures/scraper.svg': figure }

/** Kinds that no text can bring about, with the test that does. */
const shownElsewhere: Readonly<Record<string, string>> = {
  'checks/crashed': 'tests/checks/run-checks.test.ts',
  'flow/not-proved': 'tests/flow/prove-flow.test.ts',
}

const pages = faultPageFiles.map(readPage).filter(({ name }) => !(name in shownElsewhere))
const severityOf = new Map(catalogue.map((kind) => [kind.name, kind.severity]))

describe.each(pages)('$name', (page) => {
  const reported = page.examples.filter((example) => example.expect !== null)
  const fine = page.examples.filter((example) => example.expect === null)

  it('shows what is reported and what is fine', () => {
    expect(page.sections.slice(0, 2)).toEqual(['Reported', 'Fine'])
    expect(reported.map((example) => example.expect?.name)).toContain(page.name)
    expect(fine.length).toBeGreaterThan(0)
    const acceptable = severityOf.get(page.name) !== 'error'
    expect(page.sections.includes('Accepting it')).toBe(acceptable)
  })

  for (const example of reported) {
    it(`is reported in the example of line ${example.line}`, () => {
      const { name, at } = example.expect ?? { name: '', at: '' }
      const findings = findingsIn(example)
      const there = findings.filter((finding) => finding.name === name)
      expect(there, `found instead:\n${listed(findings)}`).not.toEqual([])
      const touching = there.filter((finding) => touches(finding, at, example.files[finding.at.file] ?? ''))
      expect(touching, `it stands elsewhere:\n${listed(there)}`).not.toEqual([])
    })
  }

  for (const example of fine) {
    it(`is not reported in the example of line ${example.line}, and nothing else is wrong there`, () => {
      const disturbing = findingsIn(example).filter(
        (finding) => finding.name === page.name || finding.severity === 'error',
      )
      expect(listed(disturbing)).toBe('')
    })
  }
})

function findingsIn(example: PageExample): readonly Finding[] {
  const library = openLibrary(mapLibrary({ ...surroundings, ...example.files }))
  const findings = [...library.findings, ...compileProcedure(example.compiled, library).findings]
  expect(findings.filter(({ name }) => name === 'checks/crashed')).toEqual([])
  return findings
}

function listed(findings: readonly Finding[]): string {
  return findings
    .map((finding) => `${finding.name} ${finding.at.file}:${finding.at.start} ${finding.message}`)
    .join('\n')
}

/** Whether the place of a finding and the quoted text have a letter in common; a finding of a whole file quotes nothing. */
function touches({ at: { start, end } }: Finding, quoted: string, text: string): boolean {
  if (quoted === '') return true
  for (let from = text.indexOf(quoted); from !== -1; from = text.indexOf(quoted, from + 1))
    if (from < Math.max(end, start + 1) && from + quoted.length > start) return true
  return false
}
