import { factOf } from '../model/passes/torque-facts.ts'
import type { Procedure } from '../model/procedure.ts'
import type { Resource } from '../model/resources.ts'
import { type Accuracy, differenceIn, parseAccuracy } from '../quantities/accuracy.ts'
import { parseLimit } from '../quantities/parse-limit.ts'
import { parseQuantity } from '../quantities/parse-quantity.ts'
import type { Limit, PrintedBound, PrintedLimit, Rational } from '../quantities/quantity-types.ts'
import { compare, divide, fromExactText, rational, subtract } from '../quantities/rational.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import type { CheckConfiguration } from './check.ts'
import { everyWrittenStep } from './every-step.ts'

/** A limit with what it is read, or tightened, with. */
export interface InstrumentUse {
  readonly name: string
  /** A reading is read off; a torque is set on the wrench beforehand. */
  readonly kind: 'reading' | 'torque'
  readonly limit: PrintedLimit
  readonly tools: readonly Resource[]
  /** The wrench is set to another figure: an extension lengthens it, or the running torque comes on top. */
  readonly isSetOtherwise?: true
  readonly at: Place
}

/** Every limit that names a tool of the document, each once however often its step is repeated. */
export function everyInstrumentUse(procedure: Procedure): readonly InstrumentUse[] {
  return everyWrittenStep(procedure).flatMap(({ step }) => [
    ...step.torques.map((torque): InstrumentUse => {
      const { id, limit, tool, at } = torque
      const isSetOtherwise = factOf(torque, 'extension') !== null || factOf(torque, 'added to') !== null
      return {
        name: id.split('@')[0] ?? id,
        kind: 'torque',
        limit,
        tools: toolsNamed(procedure, tool),
        ...(isSetOtherwise ? { isSetOtherwise } : {}),
        at,
      }
    }),
    ...step.readings.flatMap(({ name, limit, instrument, at }): readonly InstrumentUse[] =>
      limit === null ? [] : [{ name, kind: 'reading', limit, tools: toolsNamed(procedure, instrument), at }],
    ),
  ])
}

export function toolsNamed(procedure: Procedure, ids: string | null): readonly Resource[] {
  const named = ids?.split(/,\s*/) ?? []
  return procedure.resources.tools.filter((tool) => named.includes(tool.id))
}

/** How many steps of the scale a band must have: the shop's rule of ten, unless the library asks for another number. */
export function stepsWanted({ resolutionRatio }: CheckConfiguration): Rational {
  return resolutionRatio ?? rational(10)
}

/** What is known of an instrument; null is what nobody wrote, or what cannot be read as a figure. */
export interface InstrumentData {
  readonly measures: string | null
  readonly range: Limit | null
  readonly resolution: { readonly value: Rational; readonly unit: string; readonly kind: string } | null
  readonly accuracy: Accuracy | null
  readonly accuracyTyped: string
}

export const instrumentData = oncePer((tool: Resource): InstrumentData => {
  const typed = (name: string) => tool.facts.find((fact) => fact.name === name)?.text ?? null
  const range = parsed(typed('range'), parseLimit)
  const resolution = parsed(typed('resolution'), parseQuantity)
  const accuracyTyped = typed('accuracy')
  return {
    measures: typed('measures'),
    range,
    resolution: resolution && resolution.value.numerator > 0n ? resolution : null,
    accuracy: accuracyTyped === null ? null : parseAccuracy(accuracyTyped),
    accuracyTyped: accuracyTyped ?? '',
  }
})

type Read<Value> = (text: string) => { readonly ok: true; readonly value: Value } | { readonly ok: false }

function parsed<Value>(text: string | null, read: Read<Value>): Value | null {
  const value = text === null ? null : read(text)
  return value?.ok ? value.value : null
}

/** The ends of a limit as exact numbers in its unit. */
export interface Ends {
  readonly lower: Rational | null
  readonly upper: Rational | null
}

export function endsOf({ lower, upper }: PrintedLimit): Ends {
  const value = (bound: PrintedBound | null) => bound && fromExactText(bound.exact)
  return { lower: value(lower), upper: value(upper) }
}

/** Kinds of quantity whose readings do not go below nothing: "max 0.5 MPa" is a band from 0 to 0.5. */
const beginsAtNothing = new Set([
  'mass',
  'length',
  'time',
  'area',
  'volume',
  'force',
  'torque',
  'pressure',
  'flow',
  'frequency',
  'rotational-speed',
  'resistance',
  'voltage',
  'current',
  'power',
])

/** The width of a limit: between its ends, or from nothing up to a `max`; null where it is open. */
export function bandOf(limit: PrintedLimit): { readonly width: Rational; readonly isTwoSided: boolean } | null {
  const { lower, upper } = endsOf(limit)
  if (upper === null) return null
  if (lower !== null) return compare(lower, upper) < 0 ? { width: subtract(upper, lower), isTwoSided: true } : null
  return beginsAtNothing.has(limit.kind) && upper.numerator > 0n ? { width: upper, isTwoSided: false } : null
}

/** The smallest step of the instrument in the unit of the limit; null where it is not known, or of another kind. */
export function resolutionIn({ resolution }: InstrumentData, unit: string): Rational | null {
  return resolution && differenceIn(resolution.value, resolution.unit, unit)
}

/** `6.2`, `1.5`, `0.8`: a ratio as a person would say it, cut off and never rounded up. */
export function ratioText({ numerator, denominator }: Rational): string {
  const tenths = (numerator * 10n) / denominator
  return tenths % 10n === 0n ? `${tenths / 10n}` : `${tenths / 10n}.${tenths % 10n}`
}

export function half(value: Rational): Rational {
  return divide(value, rational(2))
}
