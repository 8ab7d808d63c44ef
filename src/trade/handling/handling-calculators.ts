import { compare, divide, multiply, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { betweenUnits } from '../between-units.ts'
import type { Calculator } from '../calculator.ts'
import { handlingCaution } from '../cautions.ts'
import { makeCalculator } from '../make-calculator.ts'
import { compositeIndex } from './composite-index.ts'
import { type Coupling, couplingMultiplier, frequencyMultiplier, type WorkDuration } from './frequency.ts'
import type { LengthSystem, MultiplierMode } from './multipliers.ts'
import { peopleNeeded } from './people-needed.ts'
import { indexVerdict, liftingIndex, recommendedWeight } from './recommended-weight.ts'

/** Calculators of handling by hand. */

const weight = ['kg', 'lb'] as const
const sixty = rational(60)
const source = 'Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021'
const durations = ['short', 'moderate', 'long'] as const satisfies readonly WorkDuration[]

const liftingIndexCalculator = makeCalculator({
  name: 'lifting-index',
  what: 'How much one person may lift by hand, and how a load compares with it.',
  formula: 'RWL = LC HM VM DM AM FM CM; LI = load/RWL; FILI leaves FM out',
  validity:
    'Two hands, up to 8 h, no slipping, sitting, kneeling, no team. H up to 25 in (63 cm), V and D up to 70 in (175 cm), A up to 135°.',
  source: `${source}, section 1.3, tables 1 to 7`,
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg' },
    horizontal: { what: 'hands in front of the middle of the ankles', kind: 'length', unit: 'cm', symbol: 'H' },
    vertical: { what: 'hands above the floor', kind: 'length', unit: 'cm', symbol: 'V', sign: 'not-negative' },
    travel: { what: 'how far up or down', kind: 'length', unit: 'cm', symbol: 'D', sign: 'not-negative' },
    twist: { what: 'angle of twist, 0 straight ahead', kind: 'angle', unit: '°', symbol: 'A', sign: 'not-negative' },
    rate: { what: 'lifts a minute', kind: 'frequency', unit: '1/min', symbol: 'F', sign: 'not-negative' },
    duration: { what: 'up to 1 h, 2 h or 8 h of lifting', kind: 'word', choices: durations },
    coupling: { what: 'how good the grip is', kind: 'word', choices: ['good', 'fair', 'poor'] },
    multipliers: {
      what: 'by formula or by the printed tables',
      kind: 'word',
      choices: ['formula', 'table'],
      optional: true,
    },
    form: { what: 'the form of the equation', kind: 'word', choices: ['metric', 'inch'], optional: true },
  },
  work: (given) => {
    const system = (given.form as LengthSystem | null) ?? 'metric'
    const mode = (given.multipliers as MultiplierMode | null) ?? 'formula'
    const [length, mass] = system === 'inch' ? (['in', 'lb'] as const) : (['cm', 'kg'] as const)
    const vertical = betweenUnits(given.vertical, 'm', length)
    const low = compare(vertical, rational(system === 'inch' ? 30 : 75)) < 0
    const frequency = frequencyMultiplier(multiply(given.rate, sixty), given.duration as WorkDuration, low)
    if (!frequency.ok) return frequency
    const coupling = couplingMultiplier(given.coupling as Coupling, low)
    const limit = recommendedWeight({
      system,
      mode,
      horizontal: betweenUnits(given.horizontal, 'm', length),
      vertical,
      travel: betweenUnits(given.travel, 'm', length),
      twist: multiply(given.twist, rational(360)),
      frequencyMultiplier: frequency.value,
      couplingMultiplier: coupling,
    })
    if (!limit.ok) return limit
    const load = betweenUnits(given.load, 'kg', mass)
    const index = liftingIndex(load, limit.value.limit)
    if (!index.ok) return index
    const independent = liftingIndex(load, limit.value.frequencyIndependent)
    if (!independent.ok) return independent
    const { hm, vm, dm, am } = limit.value
    const multipliers = { HM: hm, VM: vm, DM: dm, AM: am, FM: frequency.value, CM: coupling }
    return {
      ok: true,
      figures: [
        {
          name: 'recommended-weight',
          what: 'One person may lift',
          kind: 'mass',
          units: weight,
          value: betweenUnits(limit.value.limit, mass, 'kg'),
          rounding: 'down',
        },
        { name: 'lifting-index', what: 'Lifting index', kind: 'number', value: index.value, rounding: 'up', digits: 3 },
        {
          name: 'frequency-independent-index',
          what: 'Index without the pace',
          kind: 'number',
          value: independent.value,
          rounding: 'up',
          digits: 3,
        },
        { name: 'verdict', what: 'So', word: indexVerdict(index.value) },
        ...Object.entries(multipliers).map(
          ([name, value]) => ({ name, what: name, kind: 'number', value, digits: 4 }) as const,
        ),
      ],
      notes: [`Multipliers by the ${mode}, ${system} form.`, handlingCaution],
    }
  },
})

const compositeLiftingIndex = makeCalculator({
  name: 'composite-lifting-index',
  what: 'Lifting index of a job of several kinds of lift.',
  formula: 'CLI = STLI1 + Σ FILIi (1/FM(F1 + … + Fi) − 1/FM(F1 + … + Fi−1)), hardest first',
  validity: 'As for lifting-index; the limits are those without the pace. All lifts in one stretch of work.',
  source: `${source}, section 3, from memory`,
  inputs: {
    names: { what: 'names of the lifts', kind: 'text', list: true },
    loads: { what: 'weight of each', kind: 'mass', unit: 'kg', list: true },
    limits: { what: 'what one person may lift of each, without the pace', kind: 'mass', unit: 'kg', list: true },
    rates: { what: 'lifts a minute of each', kind: 'frequency', unit: '1/min', list: true },
    heights: { what: 'hands above the floor, of each', kind: 'length', unit: 'cm', list: true, sign: 'not-negative' },
    duration: { what: 'up to 1 h, 2 h or 8 h of lifting', kind: 'word', choices: durations },
  },
  work: ({ names, loads, limits, rates, heights, duration }) => {
    if ([loads, limits, rates, heights].some((list) => list.length !== names.length))
      return refuse(
        'names',
        'The lists are not of one length.',
        'Type one name, load, limit, rate and height for each lift.',
      )
    const tasks = names.flatMap((name, index) => {
      const [load, limit, rate, height] = [loads[index], limits[index], rates[index], heights[index]]
      if (!load || !limit || !rate || !height) return []
      const low = compare(height, rational(75, 100)) < 0
      return [{ name, load, frequencyIndependentLimit: limit, rate: multiply(rate, sixty), low }]
    })
    const composite = compositeIndex(tasks, duration as WorkDuration)
    if (!composite.ok) return composite
    return {
      ok: true,
      figures: [
        {
          name: 'composite-index',
          what: 'Composite lifting index',
          kind: 'number',
          value: composite.value.index,
          rounding: 'up',
          digits: 3,
        },
        { name: 'verdict', what: 'So', word: indexVerdict(composite.value.index) },
        { name: 'order', what: 'Hardest first', word: composite.value.order.join(', ') },
      ],
      notes: [handlingCaution],
    }
  },
})

const peopleNeededCalculator = makeCalculator({
  name: 'people-needed',
  what: 'How many people lift a load together.',
  formula: 'two: 2/3 of the sum of what each may lift; three and four: 1/2 of it',
  validity:
    'Up to four people of about one size, room to move, one who gives the word. The NIOSH equation is not made for teams.',
  source: 'HSE L23, guidance on team handling, from memory',
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg' },
    limit: { what: 'what one person may lift there', kind: 'mass', unit: 'kg' },
  },
  work: ({ load, limit }) => {
    const needed = peopleNeeded(load, limit)
    if (!needed.ok) return needed
    return {
      ok: true,
      figures: [
        { name: 'people', what: 'People', kind: 'number', value: rational(needed.value.people) },
        {
          name: 'team-limit',
          what: 'They may lift together',
          kind: 'mass',
          units: weight,
          value: needed.value.teamLimit,
          rounding: 'down',
        },
        {
          name: 'share',
          what: 'Even share of each',
          kind: 'mass',
          units: weight,
          value: needed.value.share,
          rounding: 'up',
        },
        {
          name: 'used',
          what: 'Used of what they may lift',
          kind: 'ratio',
          units: ['%'],
          value: divide(load, needed.value.teamLimit),
          rounding: 'up',
        },
      ],
      notes: [handlingCaution],
    }
  },
})

export const handlingCalculators: readonly Calculator[] = [
  liftingIndexCalculator,
  compositeLiftingIndex,
  peopleNeededCalculator,
]
