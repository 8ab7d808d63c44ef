import { describe, expect, it } from 'vitest'
import type { FlowFault, FlowProof } from '../../src/flow/proof.ts'
import { ORDINARY_BOUNDS, proveFlow } from '../../src/flow/prove-flow.ts'
import { procedureOfShape } from '../bench/flow-shapes.ts'
import { compileText } from '../compile-text.ts'
import { procedureFrom } from './procedure-of.ts'

const STATES = `
\`\`\`yaml
roles: [fitter, second, supervisor]
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
zones:
  under-belt: { what: below the return belt, safe-when: { power: isolated } }
\`\`\`
`

const ISOLATE = `
## Isolate {#isolate}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Turn the isolator off. {#off}
   \`\`\`yaml
   sets: { power: isolated }
   \`\`\`
2. Show it. {#show}
   \`\`\`yaml
   hold: { supervisor: I saw the isolator off. }
   proves: { power: isolated }
   \`\`\`
`

const CLEAN = `
## Clean {#clean}

\`\`\`yaml
by: [fitter, second]
where: under-belt
\`\`\`

1. Scrape the return rollers. {#scrape}
`

const BACK = `
## Hand back {#back}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Count everyone out and turn the isolator on. {#on}
   \`\`\`yaml
   clear: [under-belt]
   sets: { power: live }
   \`\`\`
`

function proofOf(body: string): FlowProof {
  const { flow, findings } = compileText(body)
  if (flow === null) throw new Error(findings.map((finding) => finding.message).join('\n'))
  return flow
}

const told = (fault: FlowFault): string =>
  [
    `${fault.fault} ${fault.subject}`,
    fault.message,
    fault.advice,
    ...fault.story.map(({ number, says, changes }) => `  ${number} ${says}${changes === '' ? '' : `: ${changes}`}`),
  ].join('\n')

describe('proving the flow', () => {
  it('proves what is in order, with the steps and proofs that carry it', () => {
    const proof = proofOf(STATES + ISOLATE + CLEAN + BACK)
    expect(proof.faults).toEqual([])
    expect(proof.verdict).toBe('proved')
    expect(proof.properties).toContainEqual({
      kind: 'zone',
      says: 'Nobody is in under-belt (below the return belt) unless power is isolated.',
      subject: 'under-belt',
      steps: ['2.1'],
      provedAt: ['1.2'],
    })
  })

  it('tells in the words of the trainer what is wrong, and what would close it', () => {
    const again = ISOLATE.replace('## Isolate {#isolate}', '## Try the drive {#try}')
      .replace('{#off}', '{#jog}')
      .replace('sets: { power: isolated }', 'sets: { power: [live, isolated] }')
      .replace(/2\. Show it[\s\S]*$/, '')
    expect(proofOf(STATES + ISOLATE + again + CLEAN + BACK).faults.map(told)).toMatchInlineSnapshot(`
      [
        "proof-stale under-belt/power
      Fitter is in under-belt (below the return belt) at 3.1, but power went isolated at 2.1 and nothing has been proved since.
      Prove power isolated between 2.1 and 3.1: \`hold: { supervisor: what was seen }\` with \`proves: { power: isolated }\`.
         Isolate: fitter is out
        1.1 Turn the isolator off: power goes isolated
        1.2 Show it: power is proved
         Try the drive: fitter is out
        2.1 Turn the isolator off: power goes live; power goes isolated
         Clean: fitter is in under-belt
        3.1 Scrape the return rollers",
      ]
    `)
    const uncleared = BACK.replace('   clear: [under-belt]\n', '')
    expect(proofOf(STATES + ISOLATE + CLEAN + uncleared).faults.map(told)).toMatchInlineSnapshot(`
      [
        "zone-not-cleared under-belt/power
      power goes live at 3.1, and second is in under-belt (below the return belt). There, it must be isolated.
      Count everyone out first: write \`clear: [under-belt]\` at 3.1, or send second out before it.
        1.1 Turn the isolator off: power goes isolated
        1.2 Show it: power is proved
         Clean: second is in under-belt
         … one step that changes nothing here
        3.1 Count everyone out and turn the isolator on: power goes live",
      ]
    `)
  })

  it('follows what people do side by side in every order', () => {
    const together = `
## Move the belt {#move}

\`\`\`yaml
where: { fitter: out, second: out }
together: yes
\`\`\`

1. **Fitter:** Turn the isolator on for a moment. {#jog}
   \`\`\`yaml
   sets: { power: [live, isolated] }
   \`\`\`
2. **Second:** Wipe the belt from below. {#wipe}
   \`\`\`yaml
   enters: under-belt
   \`\`\`
`
    const kinds = proofOf(STATES + ISOLATE + together + BACK).faults.map(({ fault, step }) => `${fault} ${step}`)
    expect(kinds.sort()).toEqual(['proof-stale wipe', 'zone-not-cleared jog', 'zone-unsafe wipe'])
  })

  it('lets nobody into a zone with an entry unless its role has signed or issued a permit', () => {
    const sump = STATES.replace('power: isolated } }\n```', 'power: isolated }, entry: supervisor }\n```')
    expect(sump).not.toBe(STATES)
    const kinds = (clean: string): readonly string[] =>
      proofOf(sump + ISOLATE + clean + BACK).faults.map(({ fault, subject }) => `${fault} ${subject}`)
    expect(kinds(CLEAN)).toEqual(['proof-missing under-belt/supervisor'])
    expect(kinds(`${CLEAN}   \`\`\`yaml\n   hold-before: { supervisor: I let them in. }\n   \`\`\`\n`)).toEqual([])
    expect(kinds(`${CLEAN}   \`\`\`yaml\n   permit: { entry: supervisor }\n   \`\`\`\n`)).toEqual([])
  })

  it('says the same where it tells situations apart by everything in them', () => {
    for (const body of [STATES + ISOLATE + CLEAN + BACK, STATES + CLEAN + ISOLATE + BACK, procedureOfShape(SMALL)]) {
      const { procedure } = procedureFrom(body)
      const everything = proveFlow(procedure, { ...ORDINARY_BOUNDS, keepsEverything: true })
      const ordinary = proveFlow(procedure)
      expect(everything.faults).toEqual(ordinary.faults)
      expect(everything.situations).toBeGreaterThanOrEqual(ordinary.situations)
    }
  })

  it('says so where there is too much to follow, instead of running on', () => {
    const { procedure } = procedureFrom(procedureOfShape(SMALL))
    const proof = proveFlow(procedure, { situations: 50, variants: 1 })
    expect(proof.verdict).toBe('not-proved')
    expect(proof.faults.map(({ fault }) => fault)).toEqual(['not-proved'])
    expect(proof.properties).toEqual([])
  })

  it('says nothing of a text whose names are not right yet', () => {
    expect(compileText(STATES.replace('power: isolated }', 'powr: isolated }') + CLEAN).flow?.faults ?? []).toEqual([])
  })
})

const SMALL = { steps: 60, states: 6, decisions: 1, repeats: 1 }
