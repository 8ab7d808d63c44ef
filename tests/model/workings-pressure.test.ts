import { describe, expect, it } from 'vitest'
import { compileText, stepFileOf } from '../compile-text.ts'

const text = (pressure: string) =>
  `\`\`\`yaml\ntools: { gauge: { name: gauge, range: 0 to 40 MPa, resolution: 0.1 MPa } }\n\`\`\`\n\n## Let out {#let-out}\n\n1. Open the valve and read the gauge.\n   \`\`\`yaml\n   measure: { rest: "max 0.2 MPa, with gauge" }\n   else: stop\n   pressure: { it: "${pressure}" }\n   \`\`\`\n`

function worked(pressure: string) {
  const [working] = stepFileOf(text(pressure)).phases[0]?.steps[0]?.workings ?? []
  return {
    says: (working?.says ?? '').replace(/\s/g, ' '),
    figures: Object.fromEntries(
      (working?.figures ?? []).map(({ name, value, unit }) => [name, `${value} ${unit}`.trim()]),
    ),
  }
}

describe('what a step lets out', () => {
  // By hand with a pocket calculator, from the formulas of the source named in the working; all rounded up.
  it.each([
    ['18 MPa, bore 160 mm, rod 90 mm', { push: '362 kN', pull: '248 kN' }],
    ['3000 psi, bore 4 in', { push: '37700 lbf' }],
    // 160² / (160² − 110²) = 1.8963
    ['10 MPa, bore 160 mm, rod 110 mm, rod side blocked', { push: '202 kN', 'blocked-rod-side': '19 MPa' }],
    ['20 MPa, gas 10 L, precharge 8 MPa', { oil: '5.97 L', energy: '73.7 kJ' }],
    ['1 MPa, gas 100 L', { energy: '137 kJ', 'test-distance': '30 m' }],
    ['rate 12 N/mm, travel 60 mm', { force: '720 N', energy: '21.6 J' }],
    ['mass 640 kg, height 1.2 m', { energy: '7.54 kJ' }],
    // 0.5 % for 1000 psi (6.895 MPa): 12 L × 0.005 × 25/6.895 = 0.2176 L
    ['250 bar, liquid 12 L', { 'let-off': '0.218 L' }],
  ])('%s', (pressure, figures) => {
    expect(worked(pressure).figures).toMatchObject(figures)
  })

  it('is told with where it goes, what shows that it is gone, and where people stand', () => {
    expect(worked('18 MPa, goes into the tray, gauge rest, stand at the lever').says).toBe(
      'Up to 18 MPa. It goes into the tray. It is gone when rest reads max 0.2 MPa (20 psi). Stand at the lever.',
    )
  })

  it.each([
    ['18 MPa, bore 90 mm, rod 90 mm', 'would not fit'],
    ['6 MPa, gas 10 L, precharge 8 MPa', 'would hold no oil'],
    ['18 MPa, rod 90 mm', 'no bore'],
    ['18 kg, bore 90 mm', 'is no pressure above 0'],
    ['mass 640 kg, height 0 m', 'is no length above 0'],
  ])('refuses %s in words', (pressure, words) => {
    const told = compileText(text(pressure)).findings.filter(({ name }) => name === 'pressure/figures-misfit')
    expect(told.map(({ message }) => message).join()).toContain(words)
  })
})
