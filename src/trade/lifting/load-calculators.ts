import type { Rational } from '../../quantities/quantity-types.ts'
import { rational } from '../../quantities/rational.ts'
import { type Answer, refuse } from '../answer.ts'
import { betweenUnits } from '../between-units.ts'
import type { Calculator } from '../calculator.ts'
import { liftCaution, liftMustSay } from '../cautions.ts'
import { makeCalculator } from '../make-calculator.ts'
import { weightUnits } from './leg-inputs.ts'
import {
  designLoad,
  type Material,
  poundsOf,
  poundsPerCubicFoot,
  proofLoadOf,
  ratedAfterTest,
  type Solid,
  volumeOf,
} from './load.ts'

/** Calculators of the load itself. */

const materials = Object.keys(poundsPerCubicFoot) as Material[]

const loadWeight = makeCalculator({
  name: 'load-weight',
  what: 'Weight of a solid of a common material, for an estimate.',
  formula: 'block l w h; cylinder π d² l/4; tube π (d − t) t l; sphere π d³/6; times the weight of a volume',
  validity: `Materials: ${materials.join(', ')}. An estimate: what is fixed to it or filled in comes on top.`,
  source: 'Weights and measures of a sling maker’s page on centre of gravity and sling loading (lb/ft³)',
  inputs: {
    material: { what: 'the material', kind: 'word', choices: materials },
    shape: { what: 'the shape', kind: 'word', choices: ['block', 'cylinder', 'tube', 'sphere'] },
    length: { what: 'length', kind: 'length', unit: 'm', symbol: 'l', optional: true },
    width: { what: 'width of a block', kind: 'length', unit: 'm', symbol: 'w', optional: true },
    height: { what: 'height of a block', kind: 'length', unit: 'm', symbol: 'h', optional: true },
    diameter: { what: 'outside diameter', kind: 'length', unit: 'm', symbol: 'd', optional: true },
    wall: { what: 'wall of a tube', kind: 'length', unit: 'mm', symbol: 't', optional: true },
  },
  work: (given) => {
    const volume = volumeOfGiven(given)
    if (!volume.ok) return volume
    const pounds = poundsOf(given.material as Material, betweenUnits(volume.value, 'm³', 'ft³'))
    return {
      ok: true,
      figures: [
        {
          name: 'weight',
          what: 'Weight',
          kind: 'mass',
          units: weightUnits,
          value: betweenUnits(pounds, 'lb', 'kg'),
          rounding: 'up',
          digits: 3,
          isRounded: true,
        },
        {
          name: 'volume',
          what: 'Volume',
          kind: 'volume',
          units: ['m³', 'ft³'],
          value: volume.value,
          ...(given.shape === 'block' ? {} : { isRounded: true }),
        },
      ],
      notes: ['Weigh it where you can. A guess must not be below the true weight.', liftCaution],
    }
  },
})

interface Sizes {
  readonly shape: string
  readonly length: Rational | null
  readonly width: Rational | null
  readonly height: Rational | null
  readonly diameter: Rational | null
  readonly wall: Rational | null
}

function volumeOfGiven(given: Sizes): Answer<Rational> {
  const { shape, length, width, height, diameter, wall } = given
  const needed = {
    block: { length, width, height },
    cylinder: { diameter, length },
    tube: { diameter, wall, length },
    sphere: { diameter },
  }[shape]
  const missing = Object.entries(needed ?? {}).find(([, size]) => size === null)
  if (missing) return refuse(missing[0], `A ${shape} needs its ${missing[0]}.`, `Give ${missing[0]}.`)
  return volumeOf({ shape, ...needed } as Solid)
}

const designLoadCalculator = makeCalculator({
  name: 'lift-design-load',
  what: 'The load that slings and hoist are chosen for: with doubt about the weight, movement and the gear itself.',
  formula: '(1 + u) W k + gear',
  validity: 'u 0 % for a weighed load, 10 % and more for an estimate; k 1 for a slow lift, more for travel or snatch.',
  source: 'Common practice of lift planning, no published source',
  inputs: {
    weight: { what: 'weight of the load', kind: 'mass', unit: 'kg', symbol: 'W' },
    uncertainty: { what: 'doubt about the weight', kind: 'ratio', unit: '%', symbol: 'u', sign: 'not-negative' },
    'dynamic-factor': { what: 'factor for movement, 1 or more', kind: 'number', symbol: 'k' },
    gear: { what: 'weight of the gear below the hook', kind: 'mass', unit: 'kg', sign: 'not-negative', optional: true },
  },
  work: (given) => {
    const load = designLoad(given.weight, given.uncertainty, given['dynamic-factor'], given.gear ?? rational(0))
    if (!load.ok) return load
    return {
      ok: true,
      figures: [
        {
          name: 'design-load',
          what: 'Load to choose for',
          kind: 'mass',
          units: weightUnits,
          value: load.value,
          rounding: 'up',
        },
      ],
      notes: [...liftMustSay, liftCaution],
    }
  },
})

const proofLoad = makeCalculator({
  name: 'proof-load',
  what: 'Test load of a lifting accessory made on site, and the most that it may be rated at after a test.',
  formula: 'test = 1.25 rated; rated = test/1.25',
  validity: 'Give the rating or the test load, not both. The test is done by a qualified person.',
  source: '29 CFR 1926.251(a)(4), read in a copy',
  inputs: {
    rated: { what: 'rated load', kind: 'mass', unit: 'kg', optional: true },
    'test-load': { what: 'load of the test', kind: 'mass', unit: 'kg', optional: true },
  },
  work: ({ rated, 'test-load': test }) => {
    if (rated !== null && test !== null)
      return refuse('rated', 'Rating and test load are both given.', 'Give one of them.')
    if (rated !== null) {
      const value = proofLoadOf(rated)
      if (!value.ok) return value
      return {
        ok: true,
        figures: [{ name: 'test', what: 'Test load', kind: 'mass', units: weightUnits, value: value.value }],
        notes: [liftCaution],
      }
    }
    if (test === null) return refuse('rated', 'Rating and test load are both missing.', 'Give one of them.')
    const value = ratedAfterTest(test)
    if (!value.ok) return value
    return {
      ok: true,
      figures: [
        {
          name: 'rated-at-most',
          what: 'Rated at most',
          kind: 'mass',
          units: weightUnits,
          value: value.value,
          rounding: 'down',
        },
      ],
      notes: [liftCaution],
    }
  },
})

export const loadCalculators: readonly Calculator[] = [loadWeight, designLoadCalculator, proofLoad]
