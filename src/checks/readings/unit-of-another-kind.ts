import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import type { Reading } from '../../model/readings.ts'
import { isSameScale } from '../../quantities/accuracy.ts'
import { isSameKind } from '../../quantities/expression-kinds.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { QuantityKind } from '../../quantities/quantity-types.ts'
import { kindInWords, unitBySpelling } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { formulaNames, kindOfFormula } from '../formula-names.ts'
import { instrumentData } from '../instruments.ts'
import { amountsOfKnownKind } from '../known-kinds.ts'

/**
 * The key, the name or the formula says what is measured, and the unit says something else.
 *
 *     torque: { bolts: 9 to 11 J }           ← reported: an energy
 *     measure: { ratio: min 1.15 MΩ }        ← reported: a resistance
 *     derive: { skew: abs(l1 - l2), max 3 N }   ← reported: lengths give a length
 */
export const unitOfAnotherKind: Check = {
  name: 'readings/unit-of-another-kind',
  severity: 'error',
  title: 'A value has a unit of something else than is meant.',
  rules: ['NU-21'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const { scalar, key, kinds } of amountsOfKnownKind(written)) {
      const limit = parseLimit(scalar.text)
      const [wanted] = kinds
      // What cannot be read is reported as that; a share of the whole has no kind of its own.
      if (!limit.ok || wanted === undefined || kinds.some((kind) => isSameScale(kind, limit.value.kind))) continue
      const asked = parseLimit(scalar.text, wanted)
      // `ft lb` may be either: it is read as what the key asks for.
      if (asked.ok) continue
      yield {
        at: scalar.at,
        message: `"${key}" is ${kindInWords(wanted)}, but ${scalar.text} is ${kindInWords(limit.value.kind)}.`,
        // Nobody waits for milliseconds.
        advice: wanted === 'time' ? 'Type `s`, `min` or `h`.' : asked.problem.advice,
      }
    }
    yield* inReadings(procedure)
    yield* inTools(procedure)
  },
}

function* inReadings(procedure: Procedure): Iterable<Fault> {
  const known = formulaNames(procedure)
  for (const { step } of everyWrittenStep(procedure)) {
    for (const reading of step.readings) {
      const kind = kindOf(reading)
      if (kind === null) continue
      const formula = reading.expression === null ? null : kindOfFormula(reading.expression, known)
      if (formula?.is === 'quantity' && !goesWith(formula.kind, kind))
        yield {
          at: reading.at,
          message: `"${reading.name}" works out ${kindInWords(formula.kind)}, but its limit is ${kindInWords(kind)}: ${typedOf(reading)}.`,
          advice: 'Correct the unit of the limit, or the formula.',
        }
      const meant = kindsMeantBy(reading.name)
      if (meant.length > 0 && !meant.some((one) => goesWith(one, kind)))
        yield {
          at: reading.at,
          message: `"${reading.name}" should be ${kindInWords(meant[0] ?? '')}, but ${typedOf(reading)} is ${kindInWords(kind)}.`,
          advice: 'Correct the unit, or give the reading a name that says what is read.',
        }
    }
  }
}

/** Range, resolution and accuracy of one instrument are of one kind. */
function* inTools({ resources }: Procedure): Iterable<Fault> {
  for (const tool of resources.tools) {
    const { range, resolution, accuracy, accuracyTyped } = instrumentData(tool)
    if (range === null || range.kind === 'number') continue
    const accuracyUnit = accuracy?.is === 'amount' ? unitBySpelling(accuracy.unit) : null
    const others = [
      { name: 'resolution', kind: resolution?.kind, typed: tool.facts.find(({ name }) => name === 'resolution')?.text },
      { name: 'accuracy', kind: accuracyUnit?.kind, typed: accuracyTyped },
    ]
    for (const { name, kind, typed } of others) {
      if (kind === undefined || kind === 'ratio' || goesWith(kind, range.kind)) continue
      yield {
        at: tool.at,
        message: `${tool.id} reads ${kindInWords(range.kind)} (${range.typed}), but its ${name} is ${kindInWords(kind)}: ${typed}.`,
        advice: `Give the ${name} in a unit of its range.`,
      }
    }
  }
}

const goesWith = (one: QuantityKind, other: QuantityKind): boolean => isSameScale(one, other) || isSameKind(one, other)

function kindOf({ kind, limit, unit }: Reading): QuantityKind | null {
  if (kind === 'check' || kind === 'count') return null
  if (limit !== null) return limit.kind === '' ? null : limit.kind
  return unit === null ? null : (unitBySpelling(unit)?.kind ?? null)
}

const typedOf = ({ limit, unit }: Reading): string => limit?.typed ?? unit ?? ''

/**
 * Words that leave no doubt when a name ends in them, each with the kinds that the trade means by it: the "pressure" of a
 * spring is a force, and rolling resistance may be one. Common practice, no published source.
 */
const namedKinds: Readonly<Record<string, readonly QuantityKind[]>> = {
  torque: ['torque'],
  pressure: ['pressure', 'force'],
  temperature: ['temperature'],
  ratio: ['ratio', 'number', 'slope', 'level-ratio'],
  voltage: ['voltage'],
  resistance: ['resistance', 'force', 'torque', 'pressure'],
  thickness: ['length'],
  diameter: ['length'],
  depth: ['length'],
  weight: ['mass', 'force'],
}

function kindsMeantBy(name: string): readonly QuantityKind[] {
  const last = name
    .toLowerCase()
    .split(/[-_]/)
    .findLast((word) => !/^(?:\d+|again|found|left|right|before|after)$/.test(word))
  return (last !== undefined && namedKinds[last]) || []
}
