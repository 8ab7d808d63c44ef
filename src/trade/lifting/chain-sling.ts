import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromDecimalText, multiply, rational, roundNearest, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'
import { carryingLegs, slingCapacity } from './leg-tension.ts'
import { riseOfLeg } from './sling-angle.ts'

/*
 * Working load limits of alloy chain slings. Angles from horizontal; triple and quadruple share one column, three legs carrying.
 *
 * Source of the printed rows: "Working load limits, Grade 80 and Grade 100 chain slings", table of a chain maker, repeated by three
 * suppliers; ratings in pounds, rounded to 100 lb, not always to the nearest. Rule behind it: double = 2 single sin a, triple and
 * quadruple = 3 single sin a. Printed and worked values differ by up to 100 lb; the smaller is the default.
 * Rows without printed legs: single from memory, the rest worked out.
 */

export const chainGrades = ['80', '100'] as const
export type ChainGrade = (typeof chainGrades)[number]

/** Of a chain whose grade nobody told: the weaker one. */
export const usualGrade: ChainGrade = '80'

export type ChainLegs = 'single' | 'double' | 'triple-or-quad'

export interface ChainRatings {
  readonly single: Rational
  /** At 60, 45 and 30 degrees from horizontal. */
  readonly double: readonly [at60: Rational, at45: Rational, at30: Rational]
  readonly tripleOrQuad: readonly [at60: Rational, at45: Rational, at30: Rational]
}

/** `printed`: as in the table; `worked`: by the rule; `stricter`: the smaller of the two, value by value. */
export type ChainMode = 'printed' | 'worked' | 'stricter'

/** Size: single, then double and triple-or-quad at 60, 45, 30 degrees; in pounds. */
const rows: Readonly<Record<ChainGrade, string>> = {
  '80': `
7/32: 2100 3600 3000 2100 5500 4400 3200
9/32: 3500 6100 4900 3500 9100 7400 5200
5/16: 4500 7800 6400 4500 11700 9500 6800
3/8: 7100 12300 10000 7100 18400 15100 10600
1/2: 12000 20800 17000 12000 31200 25500 18000
5/8: 18100 31300 25600 18100 47000 38400 27100
3/4: 28300
7/8: 34200
1: 47700
1-1/4: 72300`,
  '100': `
7/32: 2700
9/32: 4300
5/16: 5700
3/8: 8800 15200 12400 8800 22900 18700 13200
1/2: 15000
5/8: 22600 39100 32000 22600 58700 47900 33900
3/4: 35300
7/8: 42700
1: 59700
1-1/4: 90400`,
}

const tableAngles = [60, 45, 30].map((degrees) => riseOfLeg(rational(degrees)))

/** Ratings of a size in pounds-force. Refused for a size or grade that the table does not hold. */
export function chainRatings(grade: string, size: string, mode: ChainMode = 'stricter'): Answer<ChainRatings> {
  if (!isGrade(grade))
    return refuse('grade', `Grade ${grade} is not a grade for lifting here.`, 'Type 80 or 100, as marked on the links.')
  const table = tableOf(grade)
  const row = table.get(size)
  if (!row) {
    const sizes = [...table.keys()]
    const near = nearestName(size, sizes)
    return refuse(
      'size',
      `There is no grade ${grade} chain of ${size} in in the table.`,
      near === null ? `Type one of: ${sizes.join(', ')}.` : `Did you mean ${near}?`,
    )
  }
  const worked = ratingsFromSingle(row.single)
  if (!worked.ok || row.printed === null || mode === 'worked') return worked
  if (mode === 'printed') return answer({ single: row.single, ...row.printed })
  const { double, tripleOrQuad } = row.printed
  return answer({
    single: row.single,
    double: eachSmaller(double, worked.value.double),
    tripleOrQuad: eachSmaller(tripleOrQuad, worked.value.tripleOrQuad),
  })
}

/** The rule behind the table: 2 single sin a and 3 single sin a. In the unit of `single`. */
export function ratingsFromSingle(single: Rational): Answer<ChainRatings> {
  const columns: [Rational, Rational, Rational][] = []
  for (const legs of [2, 4]) {
    const carrying = carryingLegs(legs, 'three-carry')
    if (!carrying.ok) return carrying
    const column: Rational[] = []
    for (const rise of tableAngles) {
      const capacity = slingCapacity(single, carrying.value, rise)
      if (!capacity.ok) return capacity
      column.push(capacity.value)
    }
    columns.push(column as [Rational, Rational, Rational])
  }
  const [double, tripleOrQuad] = columns
  if (!double || !tripleOrQuad) return refuse(null, 'The table is empty.', 'Give a rating.')
  return answer({ single, double, tripleOrQuad })
}

/** The single rating that stands behind a rating of two legs at 60 degrees, to the 100 lb of the table: to find a misprint. In pounds-force. */
export function singleBehindDouble(doubleAt60: Rational): Answer<Rational> {
  if (compare(doubleAt60, zero) <= 0)
    return refuse('double60', 'The rating must be above 0.', 'Type the rating of two legs at 60°.')
  const legAt60 = multiply(rational(2), riseOfLeg(rational(60)))
  return answer(roundNearest(divide(doubleAt60, legAt60), rational(100)))
}

/** Proof test of a chain sling: 2, 4 and 6 times the single rating for one, two, and three or four legs. Source: data sheet of a chain maker. */
export function chainProofLoads(single: Rational): Answer<Readonly<Record<ChainLegs, Rational>>> {
  if (compare(single, zero) <= 0) return refuse('single', 'The rating must be above 0.', 'Type the rating of one leg.')
  const times = (factor: number): Rational => multiply(rational(factor), single)
  return answer({ single: times(2), double: times(4), 'triple-or-quad': times(6) })
}

function isGrade(text: string): text is ChainGrade {
  return chainGrades.some((grade) => grade === text)
}

export function chainSizes(grade: ChainGrade): readonly string[] {
  return [...tableOf(grade).keys()]
}

type Column = readonly [Rational, Rational, Rational]

interface Row {
  readonly single: Rational
  readonly printed: { readonly double: Column; readonly tripleOrQuad: Column } | null
}

function tableOf(grade: ChainGrade): ReadonlyMap<string, Row> {
  return new Map(
    rows[grade]
      .trim()
      .split('\n')
      .map((line) => {
        const [size = '', values = ''] = line.split(': ')
        const [single = zero, ...rest] = values.split(' ').map((text) => fromDecimalText(text) ?? zero)
        const [a, b, c, d, e, f] = rest
        const printed: Row['printed'] =
          a && b && c && d && e && f ? { double: [a, b, c], tripleOrQuad: [d, e, f] } : null
        return [size, { single, printed }]
      }),
  )
}

function eachSmaller(a: Column, b: Column): Column {
  const less = (x: Rational, y: Rational): Rational => (compare(x, y) <= 0 ? x : y)
  return [less(a[0], b[0]), less(a[1], b[1]), less(a[2], b[2])]
}
