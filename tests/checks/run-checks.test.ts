import { describe, expect, it } from 'vitest'
import type { Check } from '../../src/checks/check.ts'
import { runChecks } from '../../src/checks/run-checks.ts'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { mapLibrary } from '../map-library.ts'

const at = (file: string, start: number) => ({ file, start, end: start + 1 })

/** The runner looks at nothing of its subject but the file's name. */
const subject = { procedure: { file: 'b.md' }, written: {}, configuration: {} } as unknown as Parameters<
  typeof runChecks
>[0]

function check(name: string, run: Check['run']): Check {
  return { name, severity: 'warning', title: 'A title.', rules: [], run }
}

describe('the runner', () => {
  it('stamps name and severity, sorts by place, and takes doubles out', () => {
    const late = check('group/late', function* () {
      yield { at: at('b.md', 9), message: 'nine', advice: 'a' }
      yield { at: at('b.md', 9), message: 'nine', advice: 'a' }
      yield { at: at('a.md', 50), message: 'fifty', advice: 'a' }
    })
    const early = check('group/early', function* () {
      yield { at: at('b.md', 9), message: 'nine too', advice: 'a' }
      yield { at: at('b.md', 1), message: 'one', advice: 'a' }
    })
    const found = runChecks(subject, [late, early])
    expect(found.map(({ name, severity, message }) => `${severity} ${name} ${message}`)).toEqual([
      'warning group/late fifty',
      'warning group/early one',
      'warning group/early nine too',
      'warning group/late nine',
    ])
  })

  it('turns a check that breaks off into an error that names it, and runs the others', () => {
    const broken = check('group/broken', () => {
      throw new Error('no such step')
    })
    const halfway = check('group/halfway', function* () {
      yield { at: at('b.md', 3), message: 'three', advice: 'a' }
      throw new Error('lost the thread')
    })
    const sound = check('group/sound', function* () {
      yield { at: at('b.md', 5), message: 'five', advice: 'a' }
    })
    const found = runChecks(subject, [broken, halfway, sound])
    expect(found.map(({ name, severity }) => `${severity} ${name}`)).toEqual([
      'error checks/crashed',
      'error checks/crashed',
      'warning group/sound',
    ])
    expect(found[0]?.message).toContain('group/broken broke off: no such step')
  })
})

/** A procedure with the given front matter lines and steps. */
function compile(frontMatter: string, body: string) {
  const text = `---\nnumber: KRQ-EX-001\ntitle: Lock the crusher\nrevision: A\nstatus: for-review\ndate: 2026-03-02\n${frontMatter}---\n\n${body}`
  const file = 'procedures/crusher/crusher.md'
  return compileProcedure(file, openLibrary(mapLibrary({ [file]: text })))
}

const accepting = (finding: string, role: string, more = '') =>
  `accept:\n  - { finding: ${finding}, because: It is known., role: ${role}${more} }\n`

const lock = '## Lock {#lock}\n\n1. Lock the drive off. {#off}\n   ```yaml\n   locks: [drive-isolator]\n   ```\n'
const torque = (id: string) =>
  `1. Tighten the cover bolts. {#${id}}\n   \`\`\`yaml\n   torque: { ${id}-bolts: 180 to 220 N·m }\n   \`\`\`\n`
const names = (compiled: ReturnType<typeof compile>) => compiled.findings.map(({ name }) => name)

describe('accepting findings', () => {
  it('takes an accepted warning out of the list and keeps its words for the step file', () => {
    const compiled = compile(accepting('torque/incomplete', 'shop-trainer'), `## Cover {#cover}\n\n${torque('front')}`)
    expect(names(compiled)).toEqual([])
    expect(compiled.stepFile?.accepted).toMatchObject([
      {
        finding: 'torque/incomplete',
        because: 'It is known.',
        role: 'shop-trainer',
        messages: [expect.stringContaining('front-bolts')],
      },
    ])
  })

  it('accepts at one step only where a step is named', () => {
    const two = `## Cover {#cover}\n\n${torque('front')}${torque('rear').replace('1.', '2.')}`
    const compiled = compile(accepting('torque/incomplete', 'shop-trainer', ', step: rear'), two)
    expect(compiled.findings.map(({ name, message }) => `${name} ${/\w+-bolts/.exec(message)?.[0]}`)).toEqual([
      'torque/incomplete front-bolts',
    ])
  })

  it('lets the safety officer, and nobody else, accept an error of lockout', () => {
    expect(names(compile('', lock))).toEqual(['flow/lock-unpaired'])
    const officer = compile(accepting('flow/lock-unpaired', 'safety-officer'), lock)
    expect(names(officer)).toEqual([])
    expect(officer.stepFile?.accepted).toHaveLength(1)
    const trainer = compile(accepting('flow/lock-unpaired', 'shop-trainer'), lock)
    expect(names(trainer)).toEqual(['checks/acceptance-refused', 'flow/lock-unpaired'])
    expect(trainer.stepFile).toBeNull()
  })

  it('knows the safety officer of the document by what he is', () => {
    const roles = '```yaml\nroles:\n  hse: { who: safety officer of the quarry }\n```\n\n'
    expect(names(compile(accepting('flow/lock-unpaired', 'hse'), roles + lock))).toEqual([])
  })

  it('accepts no error of the document itself, whoever signs', () => {
    const nominal =
      '## Cover {#cover}\n\n1. Take the time.\n   ```yaml\n   measure: { rest: 2 min }\n   else: stop\n   ```\n'
    const compiled = compile(accepting('readings/nominal-without-tolerance', 'safety-officer'), nominal)
    expect(names(compiled)).toEqual(['checks/acceptance-refused', 'readings/nominal-without-tolerance'])
  })

  it('reports an acceptance that accepts nothing, with the name that was meant', () => {
    const body = `## Cover {#cover}\n\n${torque('front')}`
    const compiled = compile(accepting('torque/incomplet', 'shop-trainer'), body)
    expect(names(compiled)).toEqual(['checks/acceptance-unused', 'torque/incomplete'])
    expect(compiled.findings[0]?.advice).toBe('Did you mean "torque/incomplete"?')
  })
})

describe('what the library asks for', () => {
  const file = 'procedures/p/p.md'
  const found = (configuration: string, front: string, body: string) =>
    compileProcedure(
      file,
      openLibrary(
        mapLibrary({
          'witnessmark.yaml': configuration,
          [file]: `---\nnumber: KRQ-TX-001\ntitle: Change the belt\nrevision: A\nstatus: for-review\ndate: 2026-03-02\n${front}---\n\n${body}`,
        }),
      ),
    ).findings.map(({ name }) => name)
  const dial = (accuracy: string) =>
    `\`\`\`yaml\ntools:\n  dial: { name: dial, measures: length, range: 0 to 10 mm, resolution: 0.01 mm, accuracy: ${accuracy} }\n\`\`\`\n\n`
  const read =
    '## Read {#read}\n\n1. Read it.\n   ```yaml\n   measure: { play: "0.10 to 0.20 mm, with dial" }\n   else: stop\n   ```\n'

  it.each([
    ['site: Kestrel Ridge Quarry\n', '± 0.0125 mm', []],
    ['site: Kestrel Ridge Quarry\n', '± 0.0126 mm', ['readings/instrument-too-inaccurate']],
    ['accuracy-ratio: 3\n', '± 0.0126 mm', []],
    ['accuracy-ratio: 10:1\n', '± 0.0051 mm', ['readings/instrument-too-inaccurate']],
    ['resolution-ratio: 11\n', '± 0.005 mm', ['readings/instrument-too-coarse']],
    ['site: Kestrel Ridge Quarry\n', '± 1 % of range', ['readings/instrument-too-inaccurate']],
    ['site: Kestrel Ridge Quarry\n', '± 2 digits', []],
  ] as const)('%j with an instrument of %s', (configuration, accuracy, expected) => {
    expect(found(configuration, '', dial(accuracy) + read)).toEqual(expected)
  })

  it('names who may accept an error where people can be hurt, and then nobody else may', () => {
    const text = (role: string) => accepting('flow/lock-unpaired', role)
    const refused = (configuration: string, role: string) =>
      found(configuration, text(role), lock).includes('checks/acceptance-refused')
    expect(refused('site: Kestrel Ridge Quarry\n', 'safety-officer')).toBe(false)
    expect(refused('safety-roles: [site-manager]\n', 'site-manager')).toBe(false)
    expect(refused('safety-roles: [site-manager]\n', 'safety-officer')).toBe(true)
  })
})
