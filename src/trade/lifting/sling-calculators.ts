import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import type { Calculator } from '../calculator.ts'
import { liftCaution, liftMustSay } from '../cautions.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { angleFigures, angleInputs, angleNotes, legOf, turns, weightUnits } from './leg-inputs.ts'
import {
  type CarryingRule,
  carryingLegs,
  carryingRules,
  legTension,
  slingCapacity,
  taggedCapacity,
  tensionFactor,
} from './leg-tension.ts'
import { type LegPull, offCentreLevel, tiltedHang } from './off-centre.ts'

/** Calculators of sling legs. Weights and pulls are masses: a pull of 500 kg is that of a weight of 500 kg. */

const rules = Object.keys(carryingRules) as CarryingRule[]

const legCount = (count: Rational): number => (count.denominator === 1n ? Number(count.numerator) : Number.NaN)

const slingLegTension = makeCalculator({
  name: 'sling-leg-tension',
  what: 'Pull in each leg of a sling with 1 to 4 equal legs, hook above the centre of gravity.',
  formula: 'T = W / (n sin a) = W L / (n H)',
  validity:
    'Equal legs, hook above the centre of gravity; 0° < a ≤ 90° from horizontal. Of three and four legs two carry unless told.',
  source:
    'Formula of a provincial crane-safety study quiz; two of four legs: NAVEDTRA 14251, p. 6-36; 30°: ASME B30.9 as quoted',
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg', symbol: 'W' },
    legs: { what: 'legs of the sling, 1 to 4', kind: 'number' },
    carrying: { what: 'how many of three or four legs carry', kind: 'word', choices: rules, optional: true },
    ...angleInputs,
  },
  work: (given) => {
    const leg = legOf(given)
    if (!leg.ok) return leg
    const carrying = carryingLegs(legCount(given.legs), (given.carrying as CarryingRule | null) ?? 'two-carry')
    if (!carrying.ok) return carrying
    const tension = legTension(given.load, carrying.value, leg.value.rise)
    if (!tension.ok) return tension
    const factor = tensionFactor(leg.value.rise)
    if (!factor.ok) return factor
    const isRounded = given.angle === null ? {} : ({ isRounded: true } as const)
    return {
      ok: true,
      figures: [
        {
          name: 'tension',
          what: 'Pull in each leg',
          kind: 'mass',
          units: weightUnits,
          value: tension.value,
          rounding: 'up',
          ...isRounded,
        },
        { name: 'carrying-legs', what: 'Legs that carry', kind: 'number', value: rational(carrying.value) },
        { name: 'factor', what: 'Tension factor L/H', kind: 'number', value: factor.value, ...isRounded },
        ...angleFigures('leg-angle', 'Angle from horizontal', leg.value.angle),
      ],
      notes: [...angleNotes(leg.value.angle), ...liftMustSay, liftCaution],
    }
  },
})

const mayLift = (value: Rational): Figure => ({
  name: 'capacity',
  what: 'Most that the sling may lift',
  kind: 'mass',
  units: weightUnits,
  value,
  rounding: 'down',
})

const slingCapacityCalculator = makeCalculator({
  name: 'sling-capacity',
  what: 'What a sling of 1 to 4 equal legs may lift at an angle.',
  formula: 'W = n WLL sin a = n WLL H / L',
  validity: 'As for sling-leg-tension. The rating is that of one leg, straight.',
  source:
    'Rigging tutorials; chain tables follow it (two legs 2, three and four legs 3 times the single rating times sin a)',
  inputs: {
    rating: { what: 'rating of one leg, straight', kind: 'mass', unit: 'kg', symbol: 'WLL' },
    legs: { what: 'legs of the sling, 1 to 4', kind: 'number' },
    carrying: { what: 'how many of three or four legs carry', kind: 'word', choices: rules, optional: true },
    ...angleInputs,
  },
  work: (given) => {
    const leg = legOf(given)
    if (!leg.ok) return leg
    const carrying = carryingLegs(legCount(given.legs), (given.carrying as CarryingRule | null) ?? 'two-carry')
    if (!carrying.ok) return carrying
    const capacity = slingCapacity(given.rating, carrying.value, leg.value.rise)
    if (!capacity.ok) return capacity
    return {
      ok: true,
      figures: [
        { ...mayLift(capacity.value), ...(given.angle === null ? {} : { isRounded: true }) },
        ...angleFigures('leg-angle', 'Angle from horizontal', leg.value.angle),
      ],
      notes: [...angleNotes(leg.value.angle), liftCaution],
    }
  },
})

const angleIs = { kind: 'word', choices: ['from-horizontal', 'from-vertical', 'included'] } as const

const slingAtOtherAngle = makeCalculator({
  name: 'sling-at-other-angle',
  what: 'What a sling of several legs may lift at another angle than that of its tag.',
  formula: 'W = tag × sin a/sin a₀, never more than the tag',
  validity:
    'The sling that the tag is on, with the legs that it counts. Flatter than 30° from horizontal it is not used.',
  source:
    'Common practice, no published source: in chain sling tables of makers the columns for 60°, 45° and 30° stand to one another as the sines',
  inputs: {
    tagged: { what: 'what the tag says', kind: 'mass', unit: 'kg' },
    'tag-angle': { what: 'angle on the tag', kind: 'angle', unit: '°', symbol: 'a₀' },
    'tag-angle-is': { what: 'how the tag tells it', ...angleIs },
    angle: { what: 'angle of the legs as they hang', kind: 'angle', unit: '°', symbol: 'a' },
    'angle-is': { what: 'how that is told', ...angleIs },
  },
  work: (given) => {
    const lengths = { length: null, height: null }
    const tag = legOf({ angle: given['tag-angle'], 'angle-is': given['tag-angle-is'], ...lengths })
    if (!tag.ok) return refuse('tag-angle', tag.problem.message, tag.problem.advice)
    const leg = legOf({ angle: given.angle, 'angle-is': given['angle-is'], ...lengths })
    if (!leg.ok) return leg
    const capacity = taggedCapacity(given.tagged, tag.value.rise, leg.value.rise)
    if (!capacity.ok) return capacity
    return {
      ok: true,
      figures: [
        { ...mayLift(capacity.value), isRounded: true },
        ...angleFigures('leg-angle', 'Angle from horizontal', leg.value.angle),
      ],
      notes: [...angleNotes(leg.value.angle), liftCaution],
    }
  },
})

const offCentreLift = makeCalculator({
  name: 'off-centre-lift',
  what: 'Legs of a level two-leg lift whose centre of gravity is not in the middle: lengths, angles and pulls.',
  formula: 'S = √(D² + H²); T1 = W D2 S1 / (H (D1 + D2)); T2 = W D1 S2 / (H (D1 + D2))',
  validity:
    'The hook stands above the centre of gravity, which lies between the hook-on points. The angle limit holds for each leg.',
  source: 'University training pages for shipyards (VMASC), two-leg lifts; sling lengths from the geometry',
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg', symbol: 'W' },
    'first-distance': {
      what: 'level distance of the first point from the centre of gravity',
      kind: 'length',
      unit: 'm',
      symbol: 'D1',
      sign: 'not-negative',
    },
    'second-distance': {
      what: 'level distance of the second point',
      kind: 'length',
      unit: 'm',
      symbol: 'D2',
      sign: 'not-negative',
    },
    height: { what: 'height of the hook above the points', kind: 'length', unit: 'm', symbol: 'H' },
  },
  work: (given) => {
    const pulls = offCentreLevel({
      load: given.load,
      firstDistance: given['first-distance'],
      secondDistance: given['second-distance'],
      height: given.height,
    })
    if (!pulls.ok) return pulls
    const legs = [['first', pulls.value.first] as const, ['second', pulls.value.second] as const]
    return {
      ok: true,
      figures: legs.flatMap(([name, leg]) => [
        {
          name: `${name}-length`,
          what: `Length of the ${name} leg`,
          kind: 'length',
          units: ['m', 'ft'],
          value: leg.length,
          isRounded: true,
        } as const,
        ...pullFigures(name, leg),
      ]),
      notes: [...flatterOf(pulls.value.first, pulls.value.second), ...liftMustSay, liftCaution],
    }
  },
})

const tiltedLift = makeCalculator({
  name: 'tilted-lift',
  what: 'How a load hangs from two legs of given lengths when the hook is not above its centre of gravity: tilt and pulls.',
  formula: 'x = (L1² − L2² + s²)/(2 s), y = √(L1² − x²); tilt = atan((c − x)/(y + h)); T1 u1 + T2 u2 = W',
  validity:
    'One hook, two legs, both taut; centre of gravity below the hook. A load that would let a leg go slack is refused.',
  source: 'Statics; common practice, no published source',
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg', symbol: 'W' },
    'first-length': { what: 'length of the first leg', kind: 'length', unit: 'm', symbol: 'L1' },
    'second-length': { what: 'length of the second leg', kind: 'length', unit: 'm', symbol: 'L2' },
    span: { what: 'distance between the hook-on points', kind: 'length', unit: 'm', symbol: 's' },
    centre: {
      what: 'centre of gravity along the line from the first point',
      kind: 'length',
      unit: 'm',
      symbol: 'c',
      sign: 'any',
    },
    depth: {
      what: 'centre of gravity below the line of the points (negative: above)',
      kind: 'length',
      unit: 'm',
      symbol: 'h',
      sign: 'any',
    },
  },
  work: (given) => {
    const hang = tiltedHang({
      load: given.load,
      firstLength: given['first-length'],
      secondLength: given['second-length'],
      span: given.span,
      centre: given.centre,
      depth: given.depth,
    })
    if (!hang.ok) return hang
    const { first, second, tilt, isTopHeavy } = hang.value
    return {
      ok: true,
      figures: [
        {
          name: 'tilt',
          what: 'Tilt, second point lower (below 0: the first)',
          kind: 'angle',
          units: ['°'],
          value: turns(tilt),
          isRounded: true,
        },
        ...pullFigures('first', first),
        ...pullFigures('second', second),
      ],
      notes: [
        ...(isTopHeavy
          ? ['The centre of gravity is above the hook-on points: the load can turn over. Hook on higher.']
          : []),
        ...flatterOf(first, second),
        ...liftMustSay,
        liftCaution,
      ],
    }
  },
})

function pullFigures(name: string, leg: Omit<LegPull, 'length'>): readonly Figure[] {
  return [
    {
      name: `${name}-tension`,
      what: `Pull in the ${name} leg`,
      kind: 'mass',
      units: weightUnits,
      value: leg.tension,
      isRounded: true,
      rounding: 'up',
    },
    ...angleFigures(`${name}-angle`, `Angle of the ${name} leg from horizontal`, leg.angle),
  ]
}

function flatterOf(first: { readonly angle: Rational }, second: { readonly angle: Rational }): readonly string[] {
  return angleNotes(compare(first.angle, second.angle) <= 0 ? first.angle : second.angle)
}

export const slingCalculators: readonly Calculator[] = [
  slingLegTension,
  slingCapacityCalculator,
  slingAtOtherAngle,
  offCentreLift,
  tiltedLift,
]
