import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, fromDecimalText, multiply, one, rational } from '../../quantities/rational.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import { type Answer, answer, refuse } from '../../trade/answer.ts'
import { cribCapacity, plankBending, propCapacity } from '../../trade/support/timber.ts'
import { amountIn, type LoadBlock } from './load-data.ts'

/** What the things under `on` may carry where no stamp says it: cribs, planks and props that are built of known pieces, all alike. */
export interface BuiltSupport {
  readonly what: 'crib' | 'plank' | 'prop'
  /** In kilograms, what one of them may carry; null where its figures do not go together. */
  readonly capacity: Rational | null
  /** For a crib that is too tall for its base. */
  readonly isTooTall: boolean
  /** Why there is no capacity. */
  readonly problem: { readonly message: string; readonly advice: string } | null
  readonly formula: string
  readonly line: string
  readonly source: string
}

type Fields = { readonly [key: string]: PlainValue }

export function builtSupportOf({ fields }: LoadBlock): BuiltSupport | null {
  for (const what of ['crib', 'plank', 'prop'] as const) {
    const built = fields[what]
    if (typeof built === 'object' && !Array.isArray(built)) return builders[what](built as Fields)
  }
  return null
}

const builders: Readonly<Record<BuiltSupport['what'], (fields: Fields) => BuiltSupport>> = {
  crib: (fields) => {
    const crib = cribCapacity({
      timberWidth: length(fields, 'timber'),
      timbersInLayer: Number(typed(fields, 'timbers')),
      baseWidth: length(fields, 'base'),
      height: length(fields, 'height'),
      bearingStrength: pressure(fields, 'strength'),
    })
    return {
      what: 'crib',
      ...carried(crib.ok ? answer(crib.value.capacity) : crib),
      isTooTall: crib.ok && !crib.value.isLowEnough,
      formula: 'crib: n² b² f; no taller than 3 × its base',
      line: `Crib: (${typed(fields, 'timbers')})² × (${typed(fields, 'timber')})² × ${typed(fields, 'strength')}`,
      source: 'US Army Corps of Engineers and FEMA, Shoring Operations Guide, from memory',
    }
  },
  plank: (fields) => ({
    what: 'plank',
    ...carried(plankCapacity(fields)),
    isTooTall: false,
    formula: 'plank: the smaller of 2 b t² σ/(3 l) and, for a sag of l/60, 4 E b t³/(60 l²)',
    line: `Plank of ${typed(fields, 'width')} × ${typed(fields, 'thickness')} over ${typed(fields, 'span')}, load in its middle`,
    source: 'simple beam, statics; l/60: 29 CFR 1926.451(f)(16), from memory',
  }),
  prop: (fields) => {
    const prop = propCapacity({
      outside: length(fields, 'outside'),
      inside: length(fields, 'inside'),
      length: length(fields, 'length'),
      stiffness: pressure(fields, 'stiffness'),
      strength: pressure(fields, 'strength'),
      safetyFactor: fromDecimalText(typed(fields, 'factor')) ?? rational(3),
    })
    return {
      what: 'prop',
      ...carried(prop.ok ? answer(prop.value.capacity) : prop),
      isTooTall: false,
      formula: 'prop: the smaller of π² E I/l² and f A, over the safety factor',
      line: `Prop ${typed(fields, 'outside')} outside, ${typed(fields, 'inside')} inside, ${typed(fields, 'length')} long; it would fail by ${prop.ok ? prop.value.fails : '?'}`,
      source: 'L. Euler, pinned column; textbook of strength of materials',
    }
  },
}

/** Bending and sag both go with the load, so that one newton tells how many it may be. */
function plankCapacity(fields: Fields): Answer<Rational> {
  const bent = plankBending({
    load: one,
    span: length(fields, 'span'),
    width: length(fields, 'width'),
    thickness: length(fields, 'thickness'),
    bendingStrength: pressure(fields, 'strength'),
    stiffness: pressure(fields, 'stiffness'),
  })
  if (!bent.ok) return bent
  const sagging = multiply(bent.value.sagShare, rational(60))
  const used = compare(bent.value.used, sagging) > 0 ? bent.value.used : sagging
  return used.numerator > 0n ? answer(divide(one, used)) : refuse('span', 'The plank has no span.', 'Measure it.')
}

/** Newtons as the kilograms that press so hard. */
function carried(newtons: Answer<Rational>): Pick<BuiltSupport, 'capacity' | 'problem'> {
  return newtons.ok
    ? { capacity: divide(newtons.value, rational(980665n, 100_000n)), problem: null }
    : { capacity: null, problem: newtons.problem }
}

function typed(fields: Fields, field: string): string {
  const value = fields[field]
  return typeof value === 'string' ? value : ''
}

/** Nothing where it cannot be read: the calculators refuse that by name. */
function length(fields: Fields, field: string): Rational {
  return amountIn(typed(fields, field), 'length') ?? rational(0)
}

function pressure(fields: Fields, field: string): Rational {
  return amountIn(typed(fields, field), 'pressure') ?? rational(0)
}
