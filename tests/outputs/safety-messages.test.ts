import { describe, expect, it } from 'vitest'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../src/outputs/page/page-html.ts'
import { stepFileOf } from '../compile-text.ts'
import { textOf } from '../house/source-files.ts'

/** What rules of the trade ask of the place and shape of messages and signatures; the ids are those of `rules.json`. */
const file = stepFileOf(`\`\`\`yaml
roles:
  fitter: { who: conveyor fitter }
  supervisor: { who: shift supervisor, different-from: [fitter] }
hazards:
  scored: { hazard: Grit scores the shaft., consequence: The seal leaks., avoid: Wipe it first., severity: damage, likelihood: could }
  pinched: { hazard: The clamp pinches., consequence: It bruises a finger., avoid: Hold it by the ears., severity: minor-injury, likelihood: could }
  drops: { hazard: The counterweight drops., consequence: It crushes whoever is below., avoid: Stay outside the chain., severity: death, likelihood: will }
  whips: { hazard: The chain whips., consequence: It breaks a leg., avoid: Stand to the side., severity: serious-injury, likelihood: could }
\`\`\`

## Pin {#pin}

\`\`\`yaml
by: fitter
\`\`\`

1. Walk to the take-up.
2. Push the pin home. {#push}
   \`\`\`yaml
   hazards: [scored, pinched, drops, whips]
   hold:
     supervisor: I saw the pin through both cheeks.
   \`\`\`
3. Pull at the pin.
   \`\`\`yaml
   witness:
     supervisor: I saw that it does not move.
   \`\`\`
`)

interface Printed {
  readonly number: string
  readonly panels: readonly Record<string, unknown>[]
  readonly holds: readonly Record<string, unknown>[]
}

const words = ['DANGER', 'WARNING', 'CAUTION', 'NOTICE']
const html = pageHtml(file, { draft: false })
const sheet = checklistSources(file, { paper: 'a4', draft: false, standard: 'a-3a' }).files.find(
  (one) => one.path === 'sheet.json',
)
const printed = stepsIn(sheet && 'text' in sheet ? JSON.parse(sheet.text) : null)

describe('safety messages', () => {
  it('stand in the print with their step, the worst first, and carry no number and no box (SM-04, SM-05, SM-09, SM-10)', () => {
    expect(printed.map(({ number, panels }) => [number, panels.map((panel) => panel.word)])).toEqual([
      ['1.1', []],
      ['1.2', words],
      ['1.3', []],
    ])
    const fields = new Set(printed.flatMap(({ panels }) => panels.flatMap((panel) => Object.keys(panel))))
    expect([...fields].sort()).toEqual(['avoid', 'consequence', 'controls', 'hazard', 'signal', 'word'])
  })

  it('stand on the page directly before the instruction of their step, the worst first (SM-04, SM-05, SM-09)', () => {
    const before = html.indexOf('Walk to the take-up.')
    const at = words.map((word) => html.indexOf(`<span>${word}</span>`, before))
    expect(at.every((place) => place > before)).toBe(true)
    expect(at).toEqual(at.toSorted((a, b) => a - b))
    const between = html.slice(at[0], html.indexOf('Push the pin home.', at[0]))
    expect(between).not.toContain('class="step-number" aria-hidden="true">1.1')
    expect(between).not.toMatch(/<article/)
  })

  it('have their word alone in capitals, and everything but the colour in black and white (SM-02, SM-12, SM-20)', () => {
    expect(file.hazards.map(({ id, signalWord }) => [id, signalWord])).toEqual([
      ['scored', 'notice'],
      ['pinched', 'caution'],
      ['drops', 'danger'],
      ['whips', 'warning'],
    ])
    // The word is all that stands in its element; the triangle belongs to injury, not to damage.
    const heads = [...html.matchAll(/<p class="signal-head">(.*?)<\/p>/gs)].map(([, head]) => head ?? '')
    expect(heads.map((head) => head.replace(/<svg.*<\/svg>/s, ''))).toEqual(words.map((word) => `<span>${word}</span>`))
    expect(heads.map((head) => head.includes('<svg'))).toEqual([true, true, true, false])
    const template = textOf('templates/print/signal-words.typ')
    const frames = [...template.matchAll(/(danger|warning|caution|notice): \(.*?frame: ([\d.]+)pt/g)].map(
      ([, word, frame]) => [word, Number(frame)] as const,
    )
    // A worse word has a thicker frame, so that a grey copy still tells them apart.
    expect(frames.map(([word]) => word)).toEqual(['danger', 'warning', 'caution', 'notice'])
    expect(frames.map(([, frame]) => frame)).toEqual(frames.map(([, frame]) => frame).toSorted((a, b) => b - a))
    expect(new Set(frames.map(([, frame]) => frame)).size).toBe(4)
    expect(template).toMatch(/weight: "bold"/)
  })
})

describe('signatures', () => {
  it('stand in the step that they close, before the next one (HP-02)', () => {
    expect(printed.map(({ number, holds }) => [number, holds.length])).toEqual([
      ['1.1', 0],
      ['1.2', 1],
      ['1.3', 1],
    ])
    const signed = html.indexOf('I saw the pin through both cheeks.', html.indexOf('Push the pin home.'))
    expect(signed).toBeGreaterThan(0)
    expect(signed).toBeLessThan(html.indexOf('Pull at the pin.', html.indexOf('Push the pin home.')))
  })

  it('are listed for the auditor, every one with its step (HP-08)', () => {
    expect(file.holds.map(({ number, role, kind }) => [number, role, kind])).toEqual([
      ['1.2', 'supervisor', 'hold'],
      ['1.3', 'supervisor', 'witness'],
    ])
  })

  it('may be waived for a witness alone, with who and why (HP-04, HP-11)', () => {
    const waivable = printed.flatMap(({ number, holds }) => holds.map((hold) => [number, hold.mayBeWaived]))
    expect(waivable).toEqual([
      ['1.2', false],
      ['1.3', true],
    ])
    expect(textOf('templates/print/holds.typ')).toMatch(/mayBeWaived[^\n]*waived by[^\n]*why/)
  })
})

/** Everything in the data of the print that has messages and signatures, in its order. */
function stepsIn(value: unknown): readonly Printed[] {
  if (Array.isArray(value)) return value.flatMap(stepsIn)
  if (typeof value !== 'object' || value === null) return []
  const own = 'panels' in value && 'holds' in value && 'number' in value ? [value as Printed] : []
  return [...own, ...Object.values(value).flatMap(stepsIn)]
}
