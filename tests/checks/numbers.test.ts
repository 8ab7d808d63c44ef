import fc from 'fast-check'
import { describe, expect, it, test } from 'vitest'
import { comparePair, type PairFault } from '../../src/quantities/compare-pair.ts'
import { convertValue } from '../../src/quantities/convert.ts'
import { quantitiesIn } from '../../src/quantities/find-quantities-in-text.ts'
import { parseLimit } from '../../src/quantities/parse-limit.ts'
import { printLimit } from '../../src/quantities/print-limit.ts'
import type { Limit, Rational } from '../../src/quantities/quantity-types.ts'
import {
  exponentOfTen,
  fromDecimalText,
  multiply,
  powerOfTen,
  rational,
  subtract,
  toDecimalText,
} from '../../src/quantities/rational.ts'
import { compileText } from '../compile-text.ts'
import { LONGEST, runs } from '../quantities/runs.ts'

const faultsIn = (text: string): readonly PairFault[] =>
  quantitiesIn(text).pairs.flatMap(({ first, second }) => comparePair(first.limit, second.limit))

function limit(text: string): Limit {
  const parsed = parseLimit(text)
  if (!parsed.ok) throw new Error(`${text}: ${parsed.problem.message}`)
  return parsed.value
}

describe('numbers with units in a sentence', () => {
  test.each([
    // What is a quantity, however the trade types it.
    ['Tighten to 35-45 lb-ft (47-61 N·m).', '35-45 lb-ft | 47-61 N·m'],
    ['Leave 1/2 in. (13 mm) free.', '1/2 in | 13 mm'],
    ['Set 2-1/2 in (63.5 mm).', '2-1/2 in | 63.5 mm'],
    ['The load is 21,400 lb (9707 kg).', '21,400 lb | 9707 kg'],
    ['Up to 3100 psi (21 375 kPa).', '3100 psi | 21 375 kPa'],
    ['Cool to 100 F/38 C or below.', '100 F | 38 C'],
    ['20 lb-ft / 25 N·m', '20 lb-ft | 25 N·m'],
    ['A fall to -40 °F (−40 °C)', '-40 °F | −40 °C'],
    ['7 to 8 foot-pounds (9 to 11 joules)', '7 to 8 foot-pounds | 9 to 11 joules'],
    ['A 12-in (305 mm) wrench', '12-in | 305 mm'],
    ['Sag between 3 and 4 in (77 and 101 mm).', '3 and 4 in | 77 and 101 mm'],
    ['Fit 4 × M20 8.8 and raise it by 100 mm.', '100 mm'],
    ['Use 2 lb. of grease. Then wait 5 min.', '2 lb; 5 min'],
    ['Turn it 90 degrees, then 1/4 turn.', '90 degrees; 1/4 turn'],
    // What is none: sizes, names, dates, counts, lists, prepositions, products.
    ['M20 bolts, 1/2-13 threads, a 3/8 chain', ''],
    ['passes 30 60 100 %', ''],
    ['4 × M20 8.8, part KB-3307, tyre 24.00R35, on 2026-03-02 at 14:30', ''],
    ['step 3 in the list, figure 2 m, hole 4 in', ''],
    ['Put 3 in the tray and 12 in tray 2; 5 in-line filters', ''],
    ['4 x 12 in x 8 ft timber, scale 1:50 m', ''],
    ['SAE 60 oil, grade 8 (10.9), number 5 A', ''],
    ['Hang the 3 m (see 2) pole', '3 m'],
    ['12 V / 24 V, 24 V (5 A), 10 bar (20 min)', '12 V; 24 V; 24 V; 5 A; 10 bar; 20 min'],
    ['a 6 ft 2 in (1.88 m) bar', '1.88 m'],
    ['Mix 30 mL / 1 US gal; a fall of 5 mm / 1 ft', '30 mL; 1 US gal; 5 mm; 1 ft'],
    ['2 in x 4 in (50 x 100 mm), M12 × 1.75 (0.5 in)', '0.5 in'],
    ['47 N·m (35 lb-ft + 90°), 65 psi cold (450 kPa)', '47 N·m; 35 lb-ft; 90°; 65 psi; 450 kPa'],
    ['250 N·m (240 N·m cold)', '250 N·m; 240 N·m'],
  ])('%s', (text, expected) => {
    const { quantities, pairs } = quantitiesIn(text)
    const said = quantities.map((quantity) => {
      const pair = pairs.find(({ first }) => first === quantity)
      return pair ? `${quantity.limit.typed} | ${pair.second.limit.typed}` : quantity.limit.typed
    })
    expect(said.join('; ')).toBe(expected)
  })

  it('are found in one pass, whatever the text', () => {
    const began = performance.now()
    for (const piece of ['1 ', '1-', '5 in ', '1/2 ', '3 to ', '4 (', '1,000,', '± 5 ', '9 lb ft in. ', '7 a·b·c-'])
      quantitiesIn(piece.repeat(5_000))
    expect(performance.now() - began).toBeLessThan(10_000)
  })
})

describe('a pair', () => {
  // What explains a wrong pair: arithmetic, worked out by hand.
  test.each([
    ['0.3700 in (9.389 mm)', 'value swapped-digits'],
    ['450 psi (310 kPa)', 'value power-of-ten'],
    ['450 psi (450 kPa)', 'value same-number'],
    ['12 in (0.472 mm)', 'value wrong-way'],
    ['50 lbf·ft (6.91 N·m)', 'value other-unit'],
    ['100 lbf·in (135.6 N·m)', 'value other-unit'],
    ['20 °C (36 °F)', 'value as-difference'],
    ['10 to 15 lb in (1.70 to 1.13 N·m)', 'ends-swapped'],
    ['10 to 15 lb in (1.13 to 1.07 N·m)', 'crossed'],
    ['10 to 15 lb in (2.13 N·m)', 'form'],
    ['20.00 to 20.05 mm (0.79 to 0.79 in)', 'minimum too coarse'],
    ['20 ± 0.05 mm (0.79 ± 0.002 in)', 'nominal too coarse'],
    ['250 ± 10 N·m (184 ± 17 lbf·ft)', 'tolerance nothing'],
    ['100 N·m (60 lbf·ft)', 'value nothing'],
    ['10 N·m (10 lbf·ft)', 'value same-number'],
  ])('%s is wrong: %s', (text, expected) => {
    const said = faultsIn(text).map((fault) => {
      if (fault.is !== 'number') return fault.is
      return `${fault.part} ${fault.isTooCoarse ? 'too coarse' : (fault.slip?.is ?? 'nothing')}`
    })
    expect(said).toEqual([expected])
  })

  // Common practice, no published source: these roundings are seen on every sheet.
  test.each([
    '1000 psi (7000 kPa)',
    '350 °C (660 °F)',
    '150 °C (300 °F)',
    '80 °C (175 °F)',
    '20 °C (70 °F)',
    '-20 to +40 °C (-4 to +104 °F)',
    '10 mph (15 km/h)',
    '30 mph (50 km/h)',
    '3/4 in (20 mm)',
    '1/16 in (1.5 mm)',
    '3/8 in (10 mm)',
    '2 to 4 mm (5/64 to 5/32 in)',
    '12 mm ± 0.5 (0.47 ± 0.02 in)',
    '250 ± 12 N·m (175 to 193 lbf·ft)',
    '2 t (4400 lb)',
    '100 ft (30 m)',
    '1 lb (450 g)',
    '5 kN (1100 lbf)',
    '10 m/s (2000 ft/min)',
    '60 Nm (44 ft-lbs)',
    '1/2 in / 12 mm',
    '1 in = 25.4 mm',
    '5000 psi (34 500 kPa)',
    '12 in (300 mm)',
    '6 in (150 mm)',
    '1/8 in (3 mm)',
    '1 ft (300 mm)',
    '60 psi (4 bar)',
    '2 bar (200 kPa)',
    '0 °F (−18 °C)',
    '0 to 0.05 mm (0 to 0.002 in)',
    '90 ± 5 °C (194 ± 9 °F)',
    '10 J (7.4 ft-lb)',
    '250 N·m ± 5 % (184 lbf·ft ± 5 %)',
  ])('%s is right', (text) => {
    expect(quantitiesIn(text).pairs).toHaveLength(1)
    expect(faultsIn(text)).toEqual([])
  })

  const across = [
    ['N·m', 'lbf·ft'],
    ['N·m', 'lbf·in'],
    ['mm', 'in'],
    ['kPa', 'psi'],
    ['bar', 'psi'],
    ['kg', 'lb'],
    ['L', 'US gal'],
    ['kgf·cm', 'lbf·in'],
    ['°C', '°F'],
    ['kW', 'hp'],
  ] as const
  const anyUnits = fc
    .constantFrom(...across)
    .chain(([metric, inch]) => fc.constantFrom([metric, inch] as const, [inch, metric] as const))
  const anyNumber = fc
    .tuple(fc.integer({ min: 1, max: 99_999 }), fc.integer({ min: 0, max: 4 }))
    .map(([digits, places]) => toDecimalText(multiply(rational(digits), powerOfTen(-places)), places))
  /** The first value, converted and rounded to that many digits more than two. */
  const inOther = (typed: string, from: string, to: string, more: number): string => {
    const converted = convertValue(fromDecimalText(typed) as Rational, from, to)
    if (!converted.ok) throw new Error(converted.problem.message)
    return toDecimalText(converted.value, Math.max(0, 1 + more - exponentOfTen(converted.value)))
  }

  it(
    'that was converted and rounded to any sensible number of places is never reported',
    () => {
      fc.assert(
        fc.property(anyUnits, anyNumber, fc.integer({ min: 0, max: 4 }), ([from, to], typed, more) => {
          const other = inOther(typed, from, to, more)
          expect(faultsIn(`${typed} ${from} (${other} ${to})`)).toEqual([])
        }),
        runs(3000),
      )
    },
    LONGEST,
  )

  it(
    'whose second value is ten times what it should be is always reported, and named',
    () => {
      fc.assert(
        fc.property(anyUnits, anyNumber, fc.integer({ min: 0, max: 4 }), ([from, to], typed, more) => {
          const other = inOther(typed, from, to, more)
          fc.pre(Number(other) !== 0)
          // The point has slipped by one place.
          const places = Math.max(0, (other.split('.')[1]?.length ?? 0) - 1)
          const tenfold = toDecimalText(multiply(fromDecimalText(other) as Rational, rational(10)), places)
          const [fault] = faultsIn(`${typed} ${from} (${tenfold} ${to})`)
          expect(fault).toMatchObject({ is: 'number' })
          // The same number in both units, by chance, is named as that.
          if (typed !== tenfold) expect(fault).toMatchObject({ slip: { is: 'power-of-ten', exponent: -1 } })
        }),
        runs(3000),
      )
    },
    LONGEST,
  )

  it(
    'of ranges goes by the width of the range, and one wrong end is told from the right one',
    () => {
      fc.assert(
        fc.property(anyUnits, anyNumber, anyNumber, ([from, to], one, other) => {
          const [low, high] = Number(one) < Number(other) ? [one, other] : [other, one]
          fc.pre(Number(low) < Number(high))
          const ends = [low, high].map((typed) => convertValue(fromDecimalText(typed) as Rational, from, to))
          const [lower, upper] = ends.flatMap((end) => (end.ok ? [end.value] : []))
          if (!lower || !upper) throw new Error('not converted')
          // Two digits at least of each end, and a last place no wider than the range.
          const sizes = [lower, upper, subtract(upper, lower)].map((value) => exponentOfTen(value))
          const places = Math.max(0, 1 - (sizes[0] ?? 0), 1 - (sizes[1] ?? 0), 1 - (sizes[2] ?? 0))
          const [least, most] = [toDecimalText(lower, places), toDecimalText(upper, places)]
          expect(faultsIn(`${low} to ${high} ${from} (${least} to ${most} ${to})`)).toEqual([])
          fc.pre(Number(most) > 0)
          const tenfold = toDecimalText(multiply(fromDecimalText(most) as Rational, rational(10)), places)
          expect(faultsIn(`${low} to ${high} ${from} (${least} to ${tenfold} ${to})`)).toMatchObject([
            { is: 'number', part: 'maximum' },
          ])
        }),
        runs(2000),
      )
    },
    LONGEST,
  )

  it(
    'that we print ourselves is never reported when it is typed',
    () => {
      fc.assert(
        fc.property(
          fc.constantFrom(...across),
          anyNumber,
          anyNumber,
          fc.constantFrom('max', 'min', 'to'),
          ([unit], one, other, form) => {
            const [low, high] = Number(one) < Number(other) ? [one, other] : [other, one]
            fc.pre(low !== high)
            const typed = form === 'to' ? `${low} to ${high} ${unit}` : `${form} ${one} ${unit}`
            const { inUnits } = printLimit(limit(typed), { systems: ['metric', 'inch'] })
            const [, second] = inUnits
            fc.pre(second !== undefined)
            expect(comparePair(limit(typed), limit(second?.text ?? ''))).toEqual([])
          },
        ),
        runs(2000),
      )
    },
    LONGEST,
  )

  it('is judged by ratio nowhere: 8 % may be a habit, 0.7 % may be worn out', () => {
    expect(faultsIn('25 N·m (20 lb ft)')).toEqual([])
    expect(faultsIn('0.2716 in (6.95 mm)')).toHaveLength(1)
  })
})

describe('the checks of numbers', () => {
  const step = (text: string, block: string) =>
    `## Scraper {#scraper}\n\n1. ${text}\n   \`\`\`yaml\n${block.replace(/^/gm, '   ')}\n   \`\`\`\n`
  const numbersIn = (body: string): readonly string[] =>
    compileText(body)
      .findings.filter(({ name }) => name.startsWith('numbers/'))
      .map(({ name, message }) => `${name.slice('numbers/'.length)}: ${message}`)

  it('find a pair wherever it was written', () => {
    const wrong = '0.011 in (0.028 mm)'
    const body = [
      `The gap is ${wrong} here.`,
      '## Scraper {#scraper}',
      `A phase says ${wrong} too.`,
      `1. Set it to ${wrong}.\n   \`\`\`yaml\n   check: { seat: "The gap is ${wrong}, seen from both sides." }\n   else: stop\n   \`\`\`\n   - A bullet says ${wrong}.`,
    ].join('\n\n')
    expect(numbersIn(body)).toHaveLength(4)
  })

  it('leave values alone that the program puts in', () => {
    const body = `${step('Read the gap.', 'measure: { gap: max 0.20 mm }\nelse: stop')}2. Write down [=gap] on the tag.\n`
    expect(numbersIn(body)).toEqual([])
  })

  it('take an energy in foot-pounds for an energy where the sentence says so', () => {
    expect(numbersIn('## Blow {#blow}\n\n1. Give it one blow with an energy of 20 foot-pounds (27 J).\n')).toEqual([])
    expect(numbersIn('## Blow {#blow}\n\n1. Tighten it to 20 foot-pounds (27 J).\n')).toHaveLength(1)
  })

  it('hold the wording against the block only where it can be about nothing else', () => {
    const gap = 'measure: { gap: 2 to 4 mm }\nelse: stop'
    expect(numbersIn(step('Set the gap to 6 mm.', gap))).toHaveLength(1)
    expect(numbersIn(step('Set the gap to 1/8 in.', gap))).toEqual([])
    expect(numbersIn(step('Measure the gap 100 mm from the end.', gap))).toEqual([])
    expect(numbersIn(step('Measure the gap with a 6 mm pin, at 10 mm from the edge.', gap))).toEqual([])
    expect(numbersIn(step('Raise the blade by 100 mm and measure the gap.', gap))).toEqual([])
    expect(numbersIn(step('Stay at least 5 m away while it moves.', gap))).toEqual([])
    expect(numbersIn(step('If the gap is more than 4 mm, shim it.', gap))).toEqual([])
    expect(numbersIn(step('Turn the screw until the gap is 6 mm, then read it.', gap))).toEqual([])
    expect(numbersIn(step('The gap must be less than 5 mm.', gap))).toEqual([
      'prose-against-block: The wording of step 1.1 says "less than 5 mm", its block says 2 to 4 mm for gap.',
    ])
    const bolts = 'torque: { clamp-bolts: "180 to 220 N·m, 4 × M16 8.8, oiled, cross, passes 50 100 %" }'
    expect(numbersIn(step('Tighten the bolts to 120 lbf·ft.', bolts))).toHaveLength(1)
    expect(numbersIn(step('Tighten the bolts to 150 lbf·ft.', bolts))).toEqual([])
    expect(numbersIn(step('Tighten the bolts first to 100 N·m in a cross.', bolts))).toEqual([])
    const fill = 'measure: { pressure-after: 300 to 320 kPa }\nelse: stop'
    expect(numbersIn(step('Fill the cylinder to about 100 kPa and look at it.', fill))).toEqual([])
    expect(numbersIn(step('Fill the cylinder to 100 kPa and look at it.', fill))).toEqual([])
    expect(numbersIn(step('Wait at least 5 min.', 'wait: min 2 min'))).toHaveLength(1)
    expect(numbersIn(step('Wait five minutes, then look at it.', 'wait: min 2 min'))).toEqual([])
    expect(numbersIn(step('Wait one minute, then look at it.', 'wait: min 2 min'))).toEqual([
      'prose-against-block: The wording of step 1.1 says "one minute", its block says min 2 min for wait.',
    ])
    expect(numbersIn(step('Wait two minutes, then look at it.', 'wait: min 2 min'))).toEqual([])
    expect(numbersIn(step('Wait at least 120 s.', 'wait: min 2 min'))).toEqual([])
    expect(
      numbersIn(
        step('Hook the hub to the 5 t crane. The hub weighs 900 kg.', 'lift: { hub: "640 kg ± 10 %, with crane" }'),
      ),
    ).toHaveLength(1)
  })

  it('ask for the unit that is meant', () => {
    const said = (text: string) => numbersIn(`## Scraper {#scraper}\n\n1. ${text}\n`).length
    expect(said('Hang it on the 5-ton crane.')).toBe(1)
    expect(said('Fill in 2 gallons of oil.')).toBe(1)
    expect(said('Fill in 2 US gallons of oil and 5 oz av of powder.')).toBe(0)
    expect(said('Torque the nut to 30 lb.')).toBe(1)
    expect(said('Inflate the bag to 30 lb.')).toBe(1)
    expect(said('Tighten the chain to a pull of 30 lb.')).toBe(0)
    expect(said('Lift the cover, 30 lb, and tighten its bolts by hand.')).toBe(0)
    expect(said('Press it in at a pressure of 220 lbf·in.')).toBe(1)
    expect(said('Press it with a light pressure of 5 N, torque 30 N·m.')).toBe(0)
    expect(said('Heat it to 110 degrees.')).toBe(1)
    expect(said('Heat it to 110 degrees C and turn it 90 degrees.')).toBe(0)
  })
})
