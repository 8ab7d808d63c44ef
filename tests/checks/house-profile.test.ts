import { describe, expect, it } from 'vitest'
import { compileText } from '../compile-text.ts'

/** What a site asks for in `witnessmark.yaml` beyond the language. */

const cutting = `\`\`\`yaml
roles:
  welder: { who: boilermaker, qualification: [gas cutting] }
  watch:  { who: fire watch }
gear:
  powder-9kg: { name: powder extinguisher 9 kg, inspection: 12 months }
\`\`\`

## Cut {#cut}

\`\`\`yaml
by: welder
\`\`\`

1. Cut the liner bolts from outside.
   \`\`\`yaml
   hot-work: { method: gas cutting, extinguisher: [powder-9kg], watch: { by: watch, for: min 45 min }, distance: min 11 m }
   \`\`\`
`

const foundIn = (body: string, settings: string) =>
  compileText(body, { 'witnessmark.yaml': `site: Kestrel Ridge Quarry\n${settings}` }).findings
const messages = (body: string, settings: string, name: string) =>
  foundIn(body, settings)
    .filter((finding) => finding.name === name)
    .map(({ message }) => message)

describe('the fire watch', () => {
  const short = (settings: string) => messages(cutting, settings, 'hot-work/watch-too-short')

  it('is as long as the site or its rule set asks, and never shorter than half an hour', () => {
    expect(short('')).toEqual([])
    expect(short('thresholds: { fire-watch: 1 h }\n')).toEqual([
      'Step 1.1 ends the fire watch after min 45 min; it goes on for 60 min at least.',
    ])
    expect(short('rule-set: nfpa-51b-2019\n')).toHaveLength(1)
    expect(short('rule-set: us-osha-general-industry\n')).toEqual([])
    const quick = cutting.replace('min 45 min', 'min 20 min')
    expect(messages(quick, 'thresholds: { fire-watch: 10 min }\n', 'hot-work/watch-too-short')).toEqual([
      'Step 1.1 ends the fire watch after min 20 min; it goes on for 30 min at least.',
    ])
  })
})

describe('a hold that the site requires', () => {
  const job = (more: string) => `\`\`\`yaml
roles: { fitter: { who: fitter }, supervisor: { who: supervisor, different-from: [fitter] } }
hazards:
  shock: { hazard: The terminals are live., consequence: They kill., avoid: Keep the cover on., severity: death, likelihood: could, energy: electrical }
\`\`\`

## Look {#look}

1. **Fitter:** Look at the terminals through the window.
   \`\`\`yaml
   hazards: [shock]
${more}   \`\`\`
`
  const asked = (settings: string, more = '') => messages(job(more), settings, 'holds/required-hold-missing')

  it('is asked for by the energy of a hazard, by role, and only where the site says so', () => {
    expect(asked('')).toEqual([])
    expect(asked('required-holds: { electrical: supervisor }\n')).toHaveLength(1)
    expect(asked('required-holds: { gravity: supervisor }\n')).toEqual([])
    const signed = '   hold-before: { supervisor: I saw the cover on. }\n'
    expect(asked('required-holds: { electrical: supervisor }\n', signed)).toEqual([])
    expect(asked('required-holds: { electrical: [supervisor, electrician] }\n', signed)).toHaveLength(1)
  })

  it('is not met by a witness, who may be waived', () => {
    const seen = '   witness: { supervisor: I saw the cover on. }\n'
    expect(asked('required-holds: { electrical: supervisor }\n', seen)).toHaveLength(1)
  })
})

describe('lifting by hand', () => {
  const lifting = (load: string) =>
    `## Guard {#guard}\n\n1. Lift the guard down.\n   \`\`\`yaml\n   handle: { guard: "${load}" }\n   \`\`\`\n`
  const heavy = (load: string, settings: string) => messages(lifting(load), settings, 'handling/above-site-limit')

  it('is held against the figure of the site, in any unit, with what the load may be more', () => {
    expect(heavy('38 kg', '')).toEqual([])
    expect(heavy('38 kg', 'thresholds: { hand-lift: 25 kg }\n')).toHaveLength(1)
    expect(heavy('38 kg, by 2', 'thresholds: { hand-lift: 25 kg }\n')).toEqual([])
    expect(heavy('24 kg ± 10 %', 'thresholds: { hand-lift: 25 kg }\n')).toHaveLength(1)
    expect(heavy('25 kg', 'thresholds: { hand-lift: 51 lb }\n')).toHaveLength(1)
    expect(heavy('23 kg', 'thresholds: { hand-lift: 51 lb }\n')).toEqual([])
  })
})
