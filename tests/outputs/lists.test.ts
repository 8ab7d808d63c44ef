import { execFileSync } from 'node:child_process'
import { mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { loadTypesetter } from '../../src/devices/typesetter/typesetter.ts'
import { tidySheet } from '../../src/outputs/checklist/tidy-text.ts'
import { liftPlanOf, liftPlanSources } from '../../src/outputs/lists/lift-plan.ts'
import { pickListCsv, pickListOf, pickListSources } from '../../src/outputs/lists/pick-list.ts'
import { signOffOf, signOffSources } from '../../src/outputs/lists/sign-off.ts'
import { sumOfQuantities } from '../../src/outputs/lists/sum-quantities.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { stepFileOf } from '../compile-text.ts'

const roles = `roles:
  fitter: { who: press fitter }
  rigger: { who: slinger }
  supervisor: { who: shift supervisor, qualification: isolation authority, different-from: [fitter, rigger] }
`

const lifting = stepFileOf(`\`\`\`yaml
${roles}states:
  cover: { values: [fitted, hung, landed], start: fitted, end: fitted, energy: gravity, safe: [fitted, landed], held-by: [{ cover: fitted }, { cover: hung }, { cover: landed }] }
zones:
  below-cover: { what: below the cover, safe-when: { cover: [fitted, landed] } }
gear:
  crane: { name: workshop crane, capacity: 2 t, inspection: 12 months }
  chain: { name: two-leg chain sling, capacity: 1 000 kg, inspection: 6 months }
consumables: { oil: { number: ISO VG 46, quantity: 12 L }, rags: { quantity: 1 bag } }
parts: { seal: { number: KB-1, quantity: 2, replace: always } }
ppe: { hat: { name: hard hat } }
emergency: { fire: "Out, call, muster." }
\`\`\`

## Off {#off}

\`\`\`yaml
by: rigger
where: out
permit: { crane-work: { by: supervisor, lapses: 8 h } }
\`\`\`

1. Sling the cover and take its weight.
   \`\`\`yaml
   sets: { cover: hung }
   uses: [crane, chain, rags]
   lift: { cover: "400 kg ± 10 %, legs 2, angle 60° from horizontal, with crane chain" }
   \`\`\`
2. Put it down on the timber.
   \`\`\`yaml
   sets: { cover: landed }
   uses: [seal, oil]
   \`\`\`
3. Show the supervisor the cover on its timber.
   \`\`\`yaml
   hold: { supervisor: I saw the cover on its timber. }
   \`\`\`
4. Put the cover back with the crane.
   \`\`\`yaml
   sets: { cover: [hung, fitted] }
   uses: [crane, chain]
   lift: { cover: "400 kg ± 10 %, legs 2, angle 60° from horizontal, with crane chain" }
   \`\`\`
`)

const other: StepFile = {
  ...lifting,
  document: { ...lifting.document, number: 'KRQ-TX-002', title: 'Change another idler' },
  resources: {
    ...lifting.resources,
    consumables: lifting.resources.consumables.map((one) => (one.id === 'oil' ? { ...one, quantity: '500 mL' } : one)),
    parts: lifting.resources.parts.map((one) => ({ ...one, quantity: '4', replace: 'on-condition' })),
  },
}

describe('quantities over several procedures', () => {
  it.each([
    [['12 L', '500 mL'], '12.5 L'],
    [['2', '4'], '6'],
    [['1 bag', '1 bag', '2 L'], '2 L + 1 bag (2 ×)'],
    [['5 kg', '2'], '5 kg + 2'],
    [[], ''],
    // By the definition of the inch, 25.4 mm (international yard and pound, 1959).
    [['1 in', '25.4 mm'], '2 in'],
  ])('%j make %s', (texts, sum) => {
    expect(sumOfQuantities(texts)).toBe(sum)
  })

  it('adds up what is the same, and says for which procedures', () => {
    const list = pickListOf([other, lifting])
    const items = new Map(list.groups.flatMap(({ items: all }) => all.map((item) => [item.name, item] as const)))
    expect(items.get('oil')?.quantity).toBe('12.5 L')
    expect(items.get('seal')).toMatchObject({ quantity: '6', renewed: 'always new', stock: 'KB-1' })
    expect(items.get('workshop crane')?.from).toEqual(['KRQ-TX-001 rev A', 'KRQ-TX-002 rev A'])
    expect(list.permits).toMatchObject([{ name: 'crane work', by: 'supervisor', lasts: '8 h' }])
    expect(pickListOf([lifting, other])).toEqual(list)
  })

  it('keeps two things apart that share a name and not their rating', () => {
    const weaker = {
      ...other,
      resources: {
        ...other.resources,
        gear: other.resources.gear.map((one) => ({ ...one, facts: [{ name: 'capacity', text: '500 kg' }] })),
      },
    }
    const gear = pickListOf([lifting, weaker]).groups.find(({ title }) => title === 'Gear that carries')
    expect(gear?.items.map(({ name }) => name)).toHaveLength(4)
  })

  it('is a table that a spreadsheet reads', () => {
    expect(
      pickListCsv(pickListOf([lifting, other]))
        .replace('\uFEFF', '')
        .replaceAll('\r\n', '\n'),
    ).toMatchSnapshot()
  })
})

describe('the lift plan', () => {
  it('has the figures of the workings, each lift once with all its steps', () => {
    const { plan, drawings } = liftPlanOf(lifting, 'a4') ?? {}
    expect(plan?.lifts).toHaveLength(1)
    const [lift] = plan?.lifts ?? []
    expect(drawings?.map(({ path }) => path)).toEqual([lift?.drawing?.path])
    const working = lifting.phases.flatMap(({ steps }) => steps.flatMap(({ workings }) => workings))[0]
    expect(lift?.places).toEqual(['1.1', '1.4'])
    expect(lift?.result).toBe(working?.says)
    expect(lift?.working).toEqual(working?.lines)
    // 440 kg on two legs at 60°: 440/(2 sin 60°) = 254.03 kg, rounded up; statics. One leg of a sling rated 1 000 kg as a whole.
    expect(lift?.figures.find(({ label }) => label === 'leg tension')?.text).toBe('254.1 kg')
    expect(lift?.gear.map(({ name, used, left }) => [name, used, left])).toEqual([
      ['workshop crane', '22 %', '78 %'],
      ['two-leg chain sling', '44 %', '56 %'],
    ])
  })

  it('is not made where nothing is lifted', () => {
    const phases = lifting.phases.map((phase) => ({
      ...phase,
      steps: phase.steps.map((step) => ({ ...step, entries: [], workings: [] })),
    }))
    expect(liftPlanOf({ ...lifting, phases }, 'a4')).toBeNull()
  })
})

describe('on paper', () => {
  const issued: StepFile = { ...lifting, document: { ...lifting.document, status: 'issued' } }
  const plan = (stepFile: StepFile) => {
    const made = liftPlanOf(stepFile, 'a4')
    if (made === null) throw new Error('no lift')
    return made
  }
  // Drawings have their own tests; here they would only move the words about.
  const withoutDrawings = ({ plan: { lifts, ...rest } }: ReturnType<typeof plan>) => ({
    plan: { ...rest, lifts: lifts.map((lift) => ({ ...lift, drawing: null })) },
    drawings: [],
  })
  const sources = {
    'pick list': (one: StepFile) => pickListSources(pickListOf([one]), [one], 'a4', tidySheet),
    'pick list of two': (one: StepFile) => pickListSources(pickListOf([one, other]), [one, other], 'letter', tidySheet),
    'lift plan': (one: StepFile) => liftPlanSources(withoutDrawings(plan(one)), tidySheet),
    'sign-off': (one: StepFile) => signOffSources(signOffOf(one, 'a4'), tidySheet),
  }

  it.each(Object.keys(sources) as (keyof typeof sources)[])('reads like this: %s', async (name) => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    const made = await typesetter.render(sources[name](issued))
    expect(await typesetter.render(sources[name](issued))).toEqual(made)
    const folder = mkdtempSync(join(tmpdir(), 'witnessmark-lists-'))
    writeFileSync(join(folder, 'list.pdf'), made)
    const text = execFileSync('pdftotext', ['-layout', join(folder, 'list.pdf'), '-'], { encoding: 'utf8' })
    rmSync(folder, { recursive: true })
    expect(text.replace(/[\da-f]{4}-[\da-f]{4}(?= +dated)/, '0000-0000')).toMatchSnapshot()
  })

  it('draws the sling with the pull in each leg', async () => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    const folder = mkdtempSync(join(tmpdir(), 'witnessmark-lists-'))
    writeFileSync(join(folder, 'list.pdf'), await typesetter.render(liftPlanSources(plan(issued), tidySheet)))
    const text = execFileSync('pdftotext', [join(folder, 'list.pdf'), '-'], { encoding: 'utf8' })
    rmSync(folder, { recursive: true })
    // Once in the sentence, and once at each leg.
    expect(text.match(/255\s+kg/g)?.length).toBe(3)
  })

  it('has nothing to sign on what is not issued', async () => {
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) throw new Error(typesetter.missing)
    const folder = mkdtempSync(join(tmpdir(), 'witnessmark-lists-'))
    for (const name of ['lift plan', 'sign-off'] as const) {
      writeFileSync(join(folder, 'list.pdf'), await typesetter.render(sources[name](lifting)))
      const text = execFileSync('pdftotext', ['-layout', join(folder, 'list.pdf'), '-'], { encoding: 'utf8' })
      expect(text).toContain('FOR REVIEW – NOT FOR USE')
      expect(text).not.toMatch(/signature/i)
    }
    rmSync(folder, { recursive: true })
  })
})
