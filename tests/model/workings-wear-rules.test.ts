import { describe, expect, it } from 'vitest'
import { compileText, stepFileOf } from '../compile-text.ts'

const TOOLS = 'tools: { tape: { name: steel tape, range: 0 to 20 m, resolution: 0.5 mm }, meter: { name: gas meter } }'

function text(step: string, tables = ''): string {
  return `\`\`\`yaml\n${TOOLS}\n${tables}\`\`\`\n\n## Judge {#judge}\n\n1. Measure it.\n   \`\`\`yaml\n${step
    .trim()
    .split('\n')
    .map((line) => `   ${line}`)
    .join('\n')}\n   else: stop\n   \`\`\`\n`
}

const site = (ruleSet: string) => ({ 'witnessmark.yaml': `site: Kestrel Ridge Quarry\nrule-set: ${ruleSet}\n` })

function workings(step: string, { tables = '', files = {} }: { tables?: string; files?: Record<string, string> } = {}) {
  const [first] = stepFileOf(text(step, tables), files).phases[0]?.steps ?? []
  return (first?.workings ?? []).map(({ of, says, figures, lines }) => ({
    of,
    says: says.replace(/\s/g, ' '),
    figures: Object.fromEntries(figures.map(({ name, value, unit }) => [name, `${value} ${unit}`.trim()])),
    lines: lines.map((line) => line.replace(/\s/g, ' ')),
  }))
}

const named = (step: string, files: Record<string, string> = {}) =>
  compileText(text(step), files).findings.map(({ name }) => name)

describe('wear of a chain', () => {
  const worn = (chain: string) =>
    workings(`measure: { chain: "max 610 mm, with tape" }\nwear: { chain: "${chain}" }`)[0]?.figures

  // Roller chain maintenance guide of a chain maker: 3 %, 200/z % for many teeth, 1.5 % on fixed centres. 24 pitches of 25.4 mm: 609.6 mm.
  it.each([
    ['pitch 25.4 mm, pitches 24', '627.88 mm', '3 %'],
    ['pitch 25.4 mm, pitches 24, teeth 60', '627.88 mm', '3 %'],
    ['pitch 25.4 mm, pitches 24, teeth 80', '624.84 mm', '2.5 %'],
    ['pitch 25.4 mm, pitches 24, teeth 100', '621.79 mm', '2 %'],
    ['pitch 25.4 mm, pitches 24, fixed centres', '618.74 mm', '1.5 %'],
  ])('%s', (chain, length, part) => {
    const figures = worn(chain)
    expect(figures?.['new-length']).toBe('609.6 mm')
    expect(Number.parseFloat(figures?.['worn-length'] ?? '')).toBeCloseTo(Number.parseFloat(length), 1)
    expect(Number.parseFloat(figures?.['worn-length'] ?? '')).toBeLessThanOrEqual(
      609.6 * (1 + Number.parseFloat(part) / 100) + 1e-9,
    )
    expect(figures?.['elongation-limit']).toBe(part)
  })

  it('holds the limit of the reading against it, both ways', () => {
    const limit = (most: string) =>
      named(`measure: { chain: "max ${most}, with tape" }\nwear: { chain: "pitch 25.4 mm, pitches 24, teeth 80" }`)
    expect(limit('624 mm')).not.toContain('wear/limit-off')
    expect(limit('24.6 in')).not.toContain('wear/limit-off')
    expect(limit('625 mm')).toContain('wear/limit-off')
    // Pins counted for pitches: 23 pitches and their limit, beside the new length of 24.
    expect(limit('601 mm')).toContain('wear/limit-off')
  })
})

describe('the deflection of a belt', () => {
  // TM 5-3895-374-24-2: a span of 100 in gives by 1 9/16 in.
  it('is 1/64 of its span', () => {
    const [working] = workings('measure: { belt: "1.5 to 1.6 in, with tape" }\nwear: { belt: span 100 in }')
    expect(working?.figures).toEqual({ deflection: '1.563 in' })
    expect(named('measure: { belt: "10 to 12 mm, with tape" }\nwear: { belt: span 800 mm }')).toContain(
      'wear/limit-off',
    )
    expect(named('measure: { belt: "11 to 14 mm, with tape" }\nwear: { belt: span 800 mm }')).not.toContain(
      'wear/limit-off',
    )
  })
})

describe('the log of a reading', () => {
  const log = (rows: string) => `tables:\n  log: { columns: [when, thickness], rows: [${rows}] }\n`
  const liner = (rows: string, limit = 'min 12 mm') =>
    workings(`measure: { liner: "${limit}, with tape" }\nwear: { liner: log log }`, { tables: log(rows) })[0]

  // By hand: 2 mm in 1 000 h from 20 mm is 12 mm at 4 000 h; the readings lie on the line, so nothing spreads.
  it('meets the lower end when the reading falls', () => {
    expect(liner('[0 h, 20 mm], [500 h, 19 mm], [1 000 h, 18 mm]')?.figures).toMatchObject({ 'at-limit': '4000 h' })
  })

  // By hand: 1 mm in 100 days from 10 mm on 2026-01-01; 5 mm more take 500 days, which is 2027-05-16.
  it('answers with a date where it has dates, and takes bare numbers in the unit of the reading', () => {
    const rows = '["2026-01-01", 10], ["2026-04-11", 11], ["2026-07-20", 12]'
    expect(liner(rows, 'max 15 mm')?.figures).toMatchObject({ 'at-limit': '2027-05-16' })
  })

  it('says that it does not head for the limit, and that two rows show no spread', () => {
    expect(liner('[0 h, 20 mm], [500 h, 20 mm]')?.says).toBe(
      'The log shows no change and does not head for 12 mm. Two readings: their spread is not known.',
    )
  })

  it.each([
    ['[0 h, 20 mm]', 'has 1 row'],
    ['[spring, 20 mm], [500 h, 19 mm]', 'begins with "spring"'],
    ['[0 h, thin], [500 h, 19 mm]', 'has "thin"'],
    ['[0 h, 20 mm], [500 h, 19 kg]', 'of another kind'],
    ['[500 h, 20 mm], [500 h, 19 mm]', 'of one time'],
  ])('is refused in words where it is %s', (rows, words) => {
    const { findings } = compileText(
      text('measure: { liner: "min 12 mm, with tape" }\nwear: { liner: log log }', log(rows)),
    )
    const told = findings.filter(({ name }) => name === 'wear/log-unreadable')
    expect(told.map(({ message }) => message).join()).toContain(words)
  })
})

describe('published rules', () => {
  // 29 CFR 1926.501(b)(1): from 6 ft; 29 CFR 1910.28(b): from 4 ft, and over machinery at any height.
  it.each([
    ['height: 1.8 m', 'us-osha-construction', false],
    ['height: 6 ft', 'us-osha-construction', true],
    ['height: 4 ft', 'us-osha-general-industry', true],
    ['height: 3.9 ft', 'us-osha-general-industry', false],
    ['height: "3.9 ft, over machinery"', 'us-osha-general-industry', true],
    ['height: "5 ft, work construction"', 'us-osha-general-industry', false],
  ])('%s by %s', (height, ruleSet, isNeeded) => {
    const step = `check: { seen: The ladder stands. }\nrules: { ${height} }`
    expect(named(step, site(ruleSet)).includes('thresholds/fall-unprotected')).toBe(isNeeded)
    const safe = `check: { seen: The guardrail stands. }\nppe: [harness]\nrules: { ${height} }`
    expect(named(safe, site(ruleSet))).not.toContain('thresholds/fall-unprotected')
  })

  // 92 dB(A): 6.06 h by OSHA, 1.587 h by NIOSH, 2.52 h in Canada.
  it.each([
    ['us-osha-general-industry', '6.06 h', false],
    ['canada-federal', '2.51 h', true],
    ['us-niosh', '1.58 h', true],
  ])('92 dB(A) for 3 h by %s', (ruleSet, hours, isTooMuch) => {
    const step = 'check: { seen: The mill runs. }\nrules: { noise: "92 dB(A), for 3 h" }'
    const { findings, stepFile } = compileText(text(step), site(ruleSet))
    expect(findings.some(({ name }) => name === 'thresholds/noise-unprotected')).toBe(isTooMuch)
    if (stepFile) {
      const [working] = stepFile.phases[0]?.steps[0]?.workings ?? []
      expect(working?.figures.find(({ name }) => name === 'allowed')?.value).toBe(hours.split(' ')[0])
    }
    const protectedStep = step.replace('for 3 h', 'for 3 h, protection ear muffs')
    const working = workings(protectedStep, { files: site(ruleSet) })[0]
    expect(working?.figures).toMatchObject({ allowed: hours, rule: ruleSet })
    expect(working?.lines).toHaveLength(3)
  })

  // 29 CFR 1910.146(b): 19.5 and 23.5 %; Canada: 23 %, from memory.
  it.each([
    ['19.5 to 23.5 %', 'us-osha-general-industry', false],
    ['19.4 to 23.5 %', 'us-osha-general-industry', true],
    ['19.5 to 23.6 %', 'us-osha-general-industry', true],
    ['min 19.5 %', 'us-osha-general-industry', true],
    ['19.5 to 23.5 %', 'canada-federal', true],
    ['19.5 to 23 %', 'canada-federal', false],
  ])('oxygen of %s by %s', (limit, ruleSet, isWide) => {
    const step = `measure: { tank-air: "${limit}, with meter" }\nrules: { air: { oxygen: tank-air } }`
    expect(named(step, site(ruleSet)).includes('thresholds/air-limit-wide')).toBe(isWide)
  })

  it('count numbers from memory only where their set is chosen, or where all agree', () => {
    const oxygen = 'measure: { tank-air: "19.5 to 23.5 %, with meter" }\nrules: { air: { oxygen: tank-air } }'
    expect(named(oxygen)).not.toContain('thresholds/air-limit-wide')
    const gas = (most: string) =>
      `measure: { co: "max ${most} ppm, with meter" }\nrules: { air: { carbon-monoxide: co } }`
    // NIOSH 35 ppm and OSHA 50 ppm, both from memory.
    expect(named(gas('40'))).not.toContain('thresholds/air-limit-wide')
    expect(named(gas('60'))).toContain('thresholds/air-limit-wide')
    expect(named(gas('40'), site('us-niosh'))).toContain('thresholds/air-limit-wide')
  })
})

describe('hot work', () => {
  const cut = 'hot-work: { method: gas cutting, distance: min 11 m, watch: { by: fitter, for: min 60 min } }'
  const step = `check: { seen: The permit hangs at the place. }\n${cut}`
  const workingOf = (files = {}) => {
    const { procedure } = compileText(text(step), files)
    return procedure?.phases[0]?.steps[0]?.workings.find(({ key }) => key === 'hot-work')
  }

  // WAC 296-307-49503 (29 CFR 1910.252(a)(2)(iii)): 30 min and 35 ft; NFPA 51B, 2019, from memory: 60 min.
  it.each([
    [{}, '30 min'],
    [site('us-osha-general-industry'), '30 min'],
    [site('nfpa-51b-2019'), '60 min'],
    [site('owner-us-army-corps'), '60 min'],
  ])('asks for the watch of the rule set that is chosen', (files, watch) => {
    const working = workingOf(files)
    expect(working?.figures.map(({ value }) => value)).toEqual([watch, '35 ft'])
    expect(working?.says).toContain('here: watch min 60 min, distance min 11 m')
    expect(working?.lines.filter((line) => line.endsWith('(holds here)'))).toHaveLength(1)
  })
})
