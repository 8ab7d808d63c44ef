import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, multiply, rational } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { inch } from './thread-size.ts'

/**
 * Strengths of steel bolts. Inch grades: SAE J429, table 1, in ksi (grades 2, 5 and 8 read in a table that reproduces it, the others from
 * memory). Metric classes: ISO 898-1:2013, table 3, in MPa (8.8, 10.9 and 12.9 read as loads in a table that reproduces it, the others and
 * the step of 8.8 at M16 from memory).
 */

export interface BoltStrength {
  readonly grade: string
  /** In pascals. */
  readonly proof: Rational
  readonly tensile: Rational
}

type Row = readonly [grade: string, upTo: string, proof: number, tensile: number]

/** Inch grades up to and including a diameter in 1/16 in. */
const inchRows: readonly Row[] = [
  ['1', '24', 33, 60],
  ['2', '12', 55, 74],
  ['2', '24', 33, 60],
  ['4', '24', 65, 115],
  ['5', '16', 85, 120],
  ['5', '24', 74, 105],
  ['5.2', '16', 85, 120],
  ['7', '24', 105, 133],
  ['8', '24', 120, 150],
  ['8.2', '16', 120, 150],
]

/** Metric classes up to and including a diameter in mm. */
const metricRows: readonly Row[] = [
  ['4.6', '39', 225, 400],
  ['4.8', '39', 310, 420],
  ['5.6', '39', 280, 500],
  ['5.8', '39', 380, 520],
  ['6.8', '39', 440, 600],
  ['8.8', '16', 580, 800],
  ['8.8', '39', 600, 830],
  ['9.8', '16', 650, 900],
  ['10.9', '39', 830, 1040],
  ['12.9', '39', 970, 1220],
]

export const gradeChoices: readonly string[] = [
  ...new Set([...inchRows.map(([grade]) => `SAE ${grade}`), ...metricRows.map(([grade]) => grade)]),
]

/** The strengths of a grade at a diameter in metres; null where the standard has none for that size. */
export function boltStrength(grade: string, diameter: Rational): BoltStrength | null {
  const isInch = grade.startsWith('SAE ')
  const name = isInch ? grade.slice(4) : grade
  const step = isInch ? multiply(inch, rational(1n, 16n)) : rational(1n, 1000n)
  const row = (isInch ? inchRows : metricRows).find(
    ([rowGrade, upTo]) => rowGrade === name && compare(diameter, multiply(step, rational(BigInt(upTo)))) <= 0,
  )
  const unit = unitBySymbol(isInch ? 'ksi' : 'MPa')
  if (!row || !unit) return null
  return { grade, proof: multiply(rational(row[2]), unit.factor), tensile: multiply(rational(row[3]), unit.factor) }
}
