import { afterAll, describe, expect, it } from 'vitest'
import { fromExactText, toExactText } from '../../../src/quantities/rational.ts'
import type { Calculator } from '../../../src/trade/calculator.ts'
import { calculators } from '../../../src/trade/calculators.ts'
import { seen, toyProgram, workplace } from './toy-program.ts'

const place = workplace({})
afterAll(() => place.remove())

/** What a person sees of one command after another. */
async function session(commands: readonly (readonly string[])[], program = toyProgram): Promise<string> {
  const all: string[] = []
  for (const typed of commands)
    all.push(
      `$ witnessmark ${typed.map((word) => (/[ °]/.test(word) ? `"${word}"` : word)).join(' ')}\n${seen(await place.run(typed, program))}`,
    )
  return `${all.join('\n')}\n`
}

describe('witnessmark convert', () => {
  it('prints what a checklist would print, rounded inward, and the exact value', async () => {
    expect(
      await session([
        ['convert', 'max 3/8 in', 'mm'],
        ['convert', '250 N·m ± 5 %', 'lbf·ft'],
        ['convert', '-40 °C', 'F'],
        ['convert', '30 ft lb', 'J'],
        ['convert', '0.011 in (0.28 mm)', 'mm'],
      ]),
    ).toMatchInlineSnapshot(`
      "$ witnessmark convert "max 3/8 in" mm
      max 3/8 in is a length. In mm:
        printed    max 9.5 mm
        upper end  9.525 mm
      ———
      ——— exit 0
      $ witnessmark convert "250 N·m ± 5 %" lbf·ft
      250 N·m ± 5 % is a torque. In lbf·ft:
        printed    176 to 193 lbf·ft, aim 184 lbf·ft
        lower end  175.171010453… lbf·ft, exactly 593750000000000000/3389544870828501
        upper end  193.610064185… lbf·ft, exactly 31250000000000000/161406898610881
        aim        184.390537319… lbf·ft, exactly 625000000000000000/3389544870828501
      ———
      ——— exit 0
      $ witnessmark convert "-40 °C" F
      −40 °C is a temperature. In °F:
        printed  −40 °F
        value    −40 °F
      ———
      ——— exit 0
      $ witnessmark convert "30 ft lb" J
      30 ft lb is an energy. In J:
        printed  40.7 J
        value    40.674538449942012 J
      ———
      ——— exit 0
      $ witnessmark convert "0.011 in (0.28 mm)" mm
      0.011 in (0.28 mm) is a length. In mm:
        printed  0.279 mm
        value    0.2794 mm
      The value in parentheses, 0.28 mm, was left out of it.
      ———
      ——— exit 0
      "
    `)
  })

  it('prints every unit of the kind where none is named', async () => {
    expect(await session([['convert', '2.5 to 3 bar']])).toMatchInlineSnapshot(`
      "$ witnessmark convert "2.5 to 3 bar"
      2.5 to 3 bar is a pressure. In every unit of its kind:
        unit     printed                 lower end               upper end
        kPa      250 to 300 kPa          250 kPa                 300 kPa
        MPa      0.25 to 0.30 MPa        0.25 MPa                0.3 MPa
        GPa      0.00025 to 0.00030 GPa  0.00025 GPa             0.0003 GPa
        bar      2.5 to 3 bar            2.5 bar                 3 bar                   as typed
        Pa       250 000 to 300 000 Pa   250 000 Pa              300 000 Pa
        hPa      2500 to 3000 hPa        2500 hPa                3000 hPa
        N/mm²    0.25 to 0.30 N/mm²      0.25 N/mm²              0.3 N/mm²
        N/cm²    25 to 30 N/cm²          25 N/cm²                30 N/cm²
        mbar     2500 to 3000 mbar       2500 mbar               3000 mbar
        kgf/cm²  2.55 to 3.05 kgf/cm²    2.54929053244… kgf/cm²  3.05914863893… kgf/cm²
        mmHg     1900 to 2250 mmHg       1875.15393961… mmHg     2250.18472753… mmHg
        mmH₂O    25 500 to 30 500 mmH₂O  25 492.9053244… mmH₂O   30 591.4863893… mmH₂O
        atm      2.50 to 2.95 atm        2.46730816679… atm      2.96076980014… atm
        psi      36.5 to 43.5 psi        36.2594344325… psi      43.5113213190… psi      the one a checklist prints
        inHg     74 to 88 inHg           73.8249582525… inHg     88.5899499030… inHg
        ksi      0.0365 to 0.0435 ksi    0.0362594344325… ksi    0.0435113213190… ksi
        inH₂O    1010 to 1200 inH₂O      1003.65768993… inH₂O    1204.38922792… inH₂O
      ———
      ——— exit 0
      "
    `)
  })

  it('refuses other kinds and unclear units with the choices, as wrong use', async () => {
    expect(
      await session([
        ['convert', '390 N·m', 'J'],
        ['convert', '5 mm', 'kg'],
        ['convert', '3 gal', 'L'],
        ['convert', '3 L', 'galon'],
        ['convert', '1,5 mm', 'in'],
      ]),
    ).toMatchInlineSnapshot(`
      "$ witnessmark convert "390 N·m" J
      ———
      "J" is an energy; a torque is wanted here. Type \`N·m\`, \`N·cm\`, \`lbf·ft\` or \`lbf·in\`.
      ——— exit 2
      $ witnessmark convert "5 mm" kg
      ———
      "kg" is a mass (weight); a length is wanted here. Type \`mm\`, \`cm\`, \`in\` or \`ft\`.
      ——— exit 2
      $ witnessmark convert "3 gal" L
      ———
      "gal" alone is not clear: it can be US or imperial. Type \`US gal\` or \`imp gal\`.
      ——— exit 2
      $ witnessmark convert "3 L" galon
      ———
      "galon" is not a unit. Type \`L\`, \`mL\`, \`US gal\` or \`US qt\`.
      ——— exit 2
      $ witnessmark convert "1,5 mm" in
      ———
      "1,5" can be read as 1.5 or as 15. Type \`1.5\` or \`15\`: a point for decimals, a blank between thousands.
      ——— exit 2
      "
    `)
  })

  it('gives the same as JSON: decimals to 20 digits and exact fractions', async () => {
    const { out, status } = await place.run(['convert', '5 to 10 mm', 'in', '--json'])
    expect(status).toBe(0)
    expect(JSON.parse(out)).toEqual({
      typed: '5 to 10 mm',
      kind: 'length',
      form: 'range',
      unit: 'mm',
      results: [
        {
          unit: 'in',
          ucum: '[in_i]',
          printed: '0.20 to 0.38 in',
          lower: { value: '0.19685039370078740157', exact: '25/127', inclusive: true },
          upper: { value: '0.39370078740157480315', exact: '50/127', inclusive: true },
          aim: null,
        },
      ],
    })
    const all = JSON.parse((await place.run(['convert', '20 kPa', '--json'])).out)
    expect(all.results.length).toBeGreaterThan(10)
    for (const { value } of all.results) expect(toExactText(fromExactText(value.exact) ?? never())).toBe(value.exact)
  })
})

describe('witnessmark judge-reading', () => {
  it('says in, low or high, how far, and what was expected', async () => {
    expect(
      await session([
        ['judge-reading', 'max 3/8 in', '9.4 mm'],
        ['judge-reading', '0.10 to 0.20 mm', '0.25'],
        ['judge-reading', '-10 to 5 °C', '-15 °C'],
        ['judge-reading', 'under 4 mm', '4'],
        ['judge-reading', '238 to 262 N·m', '180'],
      ]),
    ).toMatchInlineSnapshot(`
      "$ witnessmark judge-reading "max 3/8 in" "9.4 mm"
      in limit
        expected  max 9.5 mm
        read      9.4 mm, that is 0.370078740157… in
        how far   0.125 mm below the upper end
      ———
      ——— exit 0
      $ witnessmark judge-reading "0.10 to 0.20 mm" 0.25
      high
        expected  0.10 to 0.20 mm
        read      0.25 mm
        how far   0.05 mm above the upper end
      ———
      ——— exit 1
      $ witnessmark judge-reading "-10 to 5 °C" "-15 °C"
      low
        expected  −10 to 5 °C
        read      −15 °C
        how far   5 Δ°C below the lower end
      ———
      ——— exit 1
      $ witnessmark judge-reading "under 4 mm" 4
      high
        expected  under 4 mm
        read      4 mm
        how far   at the upper end, which is not in the limit itself
      ———
      ——— exit 1
      $ witnessmark judge-reading "238 to 262 N·m" 180
      low
        expected  238 to 262 N·m
        read      180 N·m
        how far   58 N·m below the lower end
      In lbf·ft it would be in limit. Which unit was read?
      ———
      ——— exit 1
      "
    `)
  })

  it('is in doubt where the uncertainty reaches over an end, or where nothing can be judged', async () => {
    expect(
      await session([
        ['judge-reading', '0.10 to 0.20 mm', '0.195', '--uncertainty', '0.01 mm'],
        ['judge-reading', 'max 90 °C', '90.5', '--uncertainty', '1 °C'],
        ['judge-reading', '238 to 262 N·m', '250', '--uncertainty', '4 %'],
        ['judge-reading', '9.99 to 10.01 mm', '10', '--uncertainty', '0.02 mm'],
        ['judge-reading', '5 mm', '5'],
      ]),
    ).toMatchInlineSnapshot(`
      "$ witnessmark judge-reading "0.10 to 0.20 mm" 0.195 --uncertainty "0.01 mm"
      in doubt
        expected     0.10 to 0.20 mm
        read         0.195 mm
        how far      0.005 mm below the upper end
        uncertainty  ± 0.01 mm
        surely in    0.11 to 0.19 mm
      The figure is inside the limit, but nearer to its end than the uncertainty. Treat it as out of limit until a finer instrument, or the person who is responsible, has settled it.
      ———
      ——— exit 1
      $ witnessmark judge-reading "max 90 °C" 90.5 --uncertainty "1 °C"
      in doubt
        expected     max 90 °C
        read         90.5 °C
        how far      0.5 Δ°C above the upper end
        uncertainty  ± 1 °C
        surely in    max 89 °C
      The figure is outside the limit, but nearer to its end than the uncertainty. Treat it as out of limit until a finer instrument, or the person who is responsible, has settled it.
      ———
      ——— exit 1
      $ witnessmark judge-reading "238 to 262 N·m" 250 --uncertainty "4 %"
      in limit
        expected     238 to 262 N·m
        read         250 N·m
        how far      12 N·m above the lower end
        uncertainty  ± 4 %
        surely in    248 to 252 N·m
      ———
      ——— exit 0
      $ witnessmark judge-reading "9.99 to 10.01 mm" 10 --uncertainty "0.02 mm"
      in doubt
        expected     9.99 to 10.01 mm
        read         10 mm
        how far      0.01 mm above the lower end
        uncertainty  ± 0.02 mm
        surely in    nothing: the uncertainty is as wide as the limit
      The figure is inside the limit, but nearer to its end than the uncertainty. Treat it as out of limit until a finer instrument, or the person who is responsible, has settled it.
      ———
      ——— exit 1
      $ witnessmark judge-reading "5 mm" 5
      in doubt
        expected  5 mm
        read      5 mm
      "5 mm" has no tolerance, so no reading can be judged by it. Ask for the limit.
      ———
      ——— exit 1
      "
    `)
  })

  it('gives status 2 for what cannot be read', async () => {
    expect(
      await session([
        ['judge-reading', 'max 5 mm', 'ok'],
        ['judge-reading', 'max five', '5'],
        ['judge-reading', 'max 5 mm', '3 kg'],
        ['judge-reading', 'max 5 mm', '4.9', '--uncertainty', '1 kg'],
        ['judge-reading', 'max 5 mm', '4.9', '--uncertainty', '-1 mm'],
        ['judge-reading', 'max 5 mm'],
      ]),
    ).toMatchInlineSnapshot(`
      "$ witnessmark judge-reading "max 5 mm" ok
      unreadable
        expected  max 5 mm
      ———
      The reading: "ok" is not a number. Type a number and its unit, such as \`12 mm\`.
      ——— exit 2
      $ witnessmark judge-reading "max five" 5
      ———
      The limit: "five" is not a number. Type a number and its unit, such as \`12 mm\`.
      ——— exit 2
      $ witnessmark judge-reading "max 5 mm" "3 kg"
      unreadable
        expected  max 5 mm
      ———
      The reading: "kg" is a mass (weight); a length is wanted here. Type \`mm\`, \`cm\`, \`in\` or \`ft\`.
      ——— exit 2
      $ witnessmark judge-reading "max 5 mm" 4.9 --uncertainty "1 kg"
      ———
      The uncertainty: "kg" is a mass (weight); a length is wanted here. Type \`mm\`, \`cm\`, \`in\` or \`ft\`.
      ——— exit 2
      $ witnessmark judge-reading "max 5 mm" 4.9 --uncertainty "-1 mm"
      ———
      The uncertainty: "−1 mm" is below zero. Type it without the sign, as the instrument’s paper gives it: \`0.01 mm\`.
      ——— exit 2
      $ witnessmark judge-reading "max 5 mm"
      ———
      error: missing required argument 'reading'
      ——— exit 2
      "
    `)
  })

  it('gives all of it as JSON, the status alike', async () => {
    const low = await place.run(['judge-reading', '1/3 to 1/2 in', '8 mm', '--json'])
    expect(low.status).toBe(1)
    expect(JSON.parse(low.out)).toMatchObject({
      verdict: 'low',
      expected: '8.5 to 12.5 mm',
      value: { exact: '40/127' },
      distance: { to: 'lower end', side: 'beyond', value: '0.46666666666666666667', exact: '7/15', unit: 'mm' },
    })
    const unreadable = await place.run(['judge-reading', 'max 5 mm', 'ok', '--json'])
    expect(unreadable.status).toBe(2)
    expect(JSON.parse(unreadable.out)).toMatchObject({ verdict: 'unreadable', value: null, distance: null })
  })
})

/** Twice a length, and what is typed as a word: enough to see through. */
const twice: Calculator = {
  name: 'twice-the-length',
  what: 'Twice a length.',
  formula: 'T = 2 · L',
  validity: 'Any length.',
  source: 'From memory',
  inputs: [
    { name: 'length', what: 'the length', kind: 'length', unit: 'mm', symbol: 'L' },
    { name: 'side', what: 'the side', kind: 'word', unit: null, choices: ['left', 'right'], optional: true },
  ],
  run: (given) => {
    const length = given.get('length') ?? ''
    const [, number] = /^(\d+) mm$/.exec(length) ?? []
    if (number === undefined)
      return { ok: false, problem: { input: 'length', message: `"${length}" is no length.`, advice: 'Type one.' } }
    const value = String(Number(number) * 2)
    const figure = { value, exact: value, worked: value, unit: 'mm', kind: 'length' }
    return {
      ok: true,
      results: [{ name: 'twice', what: 'twice the length', ...figure }],
      working: ['T = 2 · L', `L = ${length}`],
    }
  },
}

describe('witnessmark calc', () => {
  const program = { ...toyProgram, calculators: [twice] }

  it('prints results with how they were worked out, the formula, its source, and who decides', async () => {
    expect(
      await session(
        [
          ['calc', 'twice-the-length', 'length=12 mm'],
          ['calc', '--list'],
        ],
        program,
      ),
    ).toMatchInlineSnapshot(`
      "$ witnessmark calc twice-the-length "length=12 mm"
      twice-the-length: Twice a length.

        twice  24 mm  twice the length

        formula     T = 2 · L
        worked out  L = 12 mm
        holds for   Any length.
        source      From memory

      A figure is no permission. Local law, site rules, the maker’s instructions and the qualified person on site decide.
      ———
      ——— exit 0
      $ witnessmark calc --list
        twice-the-length  Twice a length.
      ———
      ——— exit 0
      "
    `)
    expect((await place.run(['calc'], program)).out).toBe((await place.run(['calc', '--list'], program)).out)
  })

  it('says which input is missing, unknown, given twice or unreadable, and what kind it wants', async () => {
    expect(
      await session(
        [
          ['calc', 'twice-the-lenght', 'length=12 mm'],
          ['calc', 'twice-the-length'],
          ['calc', 'twice-the-length', 'lenght=12 mm'],
          ['calc', 'twice-the-length', 'length=long'],
          ['calc', 'twice-the-length', 'length=1 mm', 'length=2 mm'],
          ['calc', 'twice-the-length', '12 mm'],
          ['calc', 'twice-the-length', '--list'],
        ],
        program,
      ),
    ).toMatchInlineSnapshot(`
      "$ witnessmark calc twice-the-lenght "length=12 mm"
      ———
      There is no calculator named twice-the-lenght. Did you mean twice-the-length?
      ——— exit 2
      $ witnessmark calc twice-the-length
      ———
      twice-the-length needs one more input:
        length  the length: a length, such as in mm

      It also takes:
        side  the side: one of: left, right
      ——— exit 2
      $ witnessmark calc twice-the-length "lenght=12 mm"
      ———
      twice-the-length has no input lenght. Did you mean length?
      ——— exit 2
      $ witnessmark calc twice-the-length length=long
      ———
      "long" is no length. Type one.
        length  the length: a length, such as in mm
      ——— exit 2
      $ witnessmark calc twice-the-length "length=1 mm" "length=2 mm"
      ———
      length is given twice. Give it once.
      ——— exit 2
      $ witnessmark calc twice-the-length "12 mm"
      ———
      “12 mm” is no input. Type its name, an equals sign and its value, such as length=….
      ——— exit 2
      $ witnessmark calc twice-the-length --list
      ———
      “--list” lists every calculator and takes no name.
      ——— exit 2
      "
    `)
  })

  it('gives the agreed JSON', async () => {
    const { out, status } = await place.run(['calc', 'twice-the-length', 'length=12 mm', '--json'], program)
    expect(status).toBe(0)
    expect(JSON.parse(out)).toMatchObject({
      name: 'twice-the-length',
      inputs: { length: '12 mm' },
      results: { twice: { value: '24', exact: '24', unit: 'mm', kind: 'length' } },
      formula: 'T = 2 · L',
      source: 'From memory',
    })
  })

  it('has real calculators whose names can be typed, each asking for what it needs', async () => {
    const real = { ...toyProgram, calculators }
    expect(new Set(calculators.map(({ name }) => name)).size).toBe(calculators.length)
    expect(calculators.length).toBeGreaterThan(20)
    for (const { name, inputs } of calculators) {
      expect(name).toMatch(/^[a-z]+(-[a-z]+)*$/)
      const bare = await place.run(['calc', name], real)
      if (inputs.some((input) => !input.optional)) expect(bare, name).toMatchObject({ status: 2, out: '' })
      for (const input of inputs) if (bare.err.includes('needs')) expect(bare.err, name).toContain(`  ${input.name}`)
    }
  })
})

function never(): never {
  throw new Error('not a fraction')
}
