import { describe, expect, it } from 'vitest'
import type { Finding } from '../../src/findings/finding.ts'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import { compileText } from '../compile-text.ts'

const sentence =
  'Loosen both adjusters with the key and then slide the blade back along its rail until it is clear of the belt.'
const accepting = (role: string, finding = 'wording/sentence-too-long') => `accept:
  - { finding: ${finding}, because: The site rules prescribe the words., role: ${role} }`
const block = (text: string, indent = '') => `${indent}\`\`\`yaml\n${text.replace(/^/gm, indent)}\n${indent}\`\`\`\n`

const twoSteps = (atPhase = '', atFirst = '') =>
  `## Set {#set}\n\n${atPhase}\n1. ${sentence}\n${atFirst}2. ${sentence}\n\n## Close {#close}\n\n1. ${sentence}\n`

const tooLong = (findings: readonly Finding[]) => findings.filter(({ name }) => name === 'wording/sentence-too-long')

describe('a finding is accepted', () => {
  it('in the front matter, for the whole document or a step named there', () => {
    expect(tooLong(compileText(twoSteps()).findings)).toHaveLength(3)
    expect(tooLong(compileText(twoSteps(), {}, `${accepting('trainer')}\n`).findings)).toHaveLength(0)
    const oneStep = accepting('trainer').replace(' }', ', step: close }')
    expect(tooLong(compileText(twoSteps(), {}, `${oneStep}\n`).findings)).toHaveLength(2)
  })

  it('at a step for that step, at a phase for that phase', () => {
    expect(tooLong(compileText(twoSteps('', block(accepting('trainer'), '   '))).findings)).toHaveLength(2)
    expect(tooLong(compileText(twoSteps(block(accepting('trainer')))).findings)).toHaveLength(1)
  })

  it('once, where its phase is done on both sides', () => {
    const repeated = twoSteps(block(`repeat: { each: [left, right] }\n${accepting('trainer')}`))
    expect(compileText(repeated).stepFile?.accepted).toHaveLength(1)
  })

  it('and shown with place, reason and role in step file, print and page', () => {
    const { stepFile } = compileText(twoSteps('', block(accepting('shop-trainer'), '   ')))
    if (stepFile === null) throw new Error('no step file')
    expect(stepFile.accepted).toMatchObject([
      { finding: 'wording/sentence-too-long', because: 'The site rules prescribe the words.', role: 'shop-trainer' },
    ])
    const sheet = checklistSources(stepFile, { paper: 'a4', draft: false, standard: null }).files
    const print = sheet.map((file) => ('text' in file && file.path === 'sheet.json' ? file.text : '')).join('')
    for (const output of [print.replace(/[\u00a0\u202f\u200b]/g, ' '), pageHtml(stepFile, { draft: false })]) {
      expect(output).toContain('Step 1.1: A sentence of step 1.1 has')
      expect(output).toContain('The site rules prescribe the words.')
      expect(output).toContain('shop trainer')
    }
  })
})

describe('an error', () => {
  const locked = '## Lock {#lock}\n\n1. Lock the drive isolator off.\n   ```yaml\n   locks: [drive-isolator]\n   ```\n'
  const names = (role: string, settings = '') =>
    compileText(
      locked,
      { 'witnessmark.yaml': `site: Kestrel Ridge Quarry\n${settings}` },
      `${accepting(role, 'flow/lock-unpaired')}\n`,
    )
      .findings.filter(({ severity }) => severity === 'error')
      .map(({ name }) => name)

  it('about what can hurt is accepted by a safety role of the site, and by nobody else', () => {
    expect(names('safety-officer')).toEqual([])
    expect(names('shop-trainer')).toEqual(['flow/lock-unpaired', 'checks/acceptance-refused'].sort())
    expect(names('mine-captain', 'safety-roles: [mine captain]\n')).toEqual([])
    expect(names('safety-officer', 'safety-roles: [mine-captain]\n')).toContain('checks/acceptance-refused')
  })

  it('made one by the site is accepted by a safety role only', () => {
    const settings = { 'witnessmark.yaml': 'severity: { wording/sentence-too-long: error }\n' }
    const raised = compileText(twoSteps(), settings)
    expect(tooLong(raised.findings).map(({ severity, raisedFrom }) => [severity, raisedFrom])).toContainEqual([
      'error',
      'warning',
    ])
    expect(raised.stepFile).toBeNull()
    expect(compileText(twoSteps(), settings, `${accepting('shop-trainer')}\n`).stepFile).toBeNull()
    expect(compileText(twoSteps(), settings, `${accepting('safety-officer')}\n`).stepFile).not.toBeNull()
  })
})

it('a site cannot make a finding less than it is', () => {
  const settings = { 'witnessmark.yaml': 'severity: { flow/lock-unpaired: warning }\n' }
  const locked = '## Lock {#lock}\n\n1. Lock the drive isolator off.\n   ```yaml\n   locks: [drive-isolator]\n   ```\n'
  const { findings, stepFile } = compileText(locked, settings)
  expect(findings.find(({ name }) => name === 'flow/lock-unpaired')?.severity).toBe('error')
  expect(stepFile).toBeNull()
})
