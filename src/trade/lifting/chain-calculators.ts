import { divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { betweenUnits } from '../between-units.ts'
import type { Calculator } from '../calculator.ts'
import { liftCaution } from '../cautions.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import {
  chainWornOut,
  heatReduction,
  hoistChainLimit,
  lossAfterHeat,
  reducedBy,
  type WearRule,
  wearRules,
} from './chain-condition.ts'
import { type ChainGrade, type ChainMode, chainGrades, chainRatings, chainSizes } from './chain-sling.ts'
import { weightUnits } from './leg-inputs.ts'

/** Calculators of chains. */

const hundred = rational(100)

const chainSling = makeCalculator({
  name: 'chain-sling',
  what: 'Working load limits of an alloy chain sling by grade and size, hot chains reduced.',
  formula: 'double = 2 single sin a; triple and quad = 3 single sin a; times (1 − reduction by heat)',
  validity: `Grade 80: ${chainSizes('80').join(', ')} in; grade 100: ${chainSizes('100').join(', ')} in. Up to 1000 °F.`,
  source: 'Grade 80 and grade 100 tables of a chain maker; heat: table of a sling maker. Larger sizes from memory',
  inputs: {
    grade: { what: 'grade on the links', kind: 'word', choices: chainGrades },
    size: { what: 'chain size in inches', kind: 'size' },
    values: {
      what: 'printed, worked or the smaller of both',
      kind: 'word',
      choices: ['printed', 'worked', 'stricter'],
      optional: true,
    },
    temperature: { what: 'temperature of the chain', kind: 'temperature', unit: '°F', optional: true },
  },
  work: (given) => {
    const ratings = chainRatings(
      given.grade,
      given.size.replace(/\s*(?:in|")\s*$/, ''),
      (given.values as ChainMode | null) ?? 'stricter',
    )
    if (!ratings.ok) return ratings
    let percent = rational(0)
    const notes: string[] = []
    if (given.temperature !== null) {
      const fahrenheit = betweenUnits(given.temperature, 'K', '°F')
      const heat = heatReduction(fahrenheit, given.grade as ChainGrade)
      if (!heat.ok) return heat
      percent = heat.value.reduction
      notes.push(`Reduction by the ${heat.value.table} heat table.`)
      const lost = lossAfterHeat(fahrenheit)
      if (lost.ok && lost.value.numerator > 0n)
        notes.push(`After it cooled down, a grade 80 chain has lost ${lost.value.numerator} % for good.`)
    }
    const { single, double, tripleOrQuad } = ratings.value
    const named = [
      ['single', 'One leg', single],
      ['double-60', 'Two legs at 60°', double[0]],
      ['double-45', 'Two legs at 45°', double[1]],
      ['double-30', 'Two legs at 30°', double[2]],
      ['triple-or-quad-60', 'Three or four legs at 60°', tripleOrQuad[0]],
      ['triple-or-quad-45', 'Three or four legs at 45°', tripleOrQuad[1]],
      ['triple-or-quad-30', 'Three or four legs at 30°', tripleOrQuad[2]],
    ] as const
    return {
      ok: true,
      figures: [
        ...named.map(
          ([name, what, pounds]): Figure => ({
            name,
            what,
            kind: 'mass',
            units: weightUnits,
            value: reducedBy(betweenUnits(pounds, 'lb', 'kg'), percent),
            isRounded: true,
            rounding: 'down',
          }),
        ),
        { name: 'reduction', what: 'Reduction by heat', kind: 'ratio', units: ['%'], value: divide(percent, hundred) },
      ],
      notes: [...notes, 'Angles from horizontal. Three of four legs are counted on.', liftCaution],
    }
  },
})

const chainWear = makeCalculator({
  name: 'chain-wear',
  what: 'Whether a worn link goes out of use.',
  formula: '(stock − worn)/stock > share of the rule',
  validity: 'The thinnest place of the link. The tenth is the default; the maker’s table comes first.',
  source: Object.values(wearRules)
    .map(({ source }) => source)
    .join('; '),
  inputs: {
    stock: { what: 'thickness of the link when new', kind: 'length', unit: 'mm' },
    worn: { what: 'thickness at its thinnest', kind: 'length', unit: 'mm' },
    rule: { what: 'the rule', kind: 'word', choices: Object.keys(wearRules), optional: true },
  },
  work: ({ stock, worn, rule }) => {
    const out = chainWornOut(stock, worn, (rule as WearRule | null) ?? 'tenth-of-stock')
    if (!out.ok) return out
    return {
      ok: true,
      figures: [
        { name: 'wear', what: 'Worn off', kind: 'ratio', units: ['%'], value: divide(subtract(stock, worn), stock) },
        { name: 'verdict', what: 'The link', word: out.value ? 'goes out of use' : 'may stay in use' },
      ],
      notes: [liftCaution],
    }
  },
})

const hoistChain = makeCalculator({
  name: 'hoist-chain-wear',
  what: 'Length of five links of a hoist chain at which it goes out of use.',
  formula: 'from the table of the manual; else 2.5 % longer than new',
  validity: 'Five links measured together. The manual of the hoist comes first.',
  source: 'Manual of a lever hoist, load chain wear table; 2.5 %: manual of another hoist',
  inputs: { nominal: { what: 'five links when new', kind: 'length', unit: 'mm' } },
  work: ({ nominal }) => {
    const limit = hoistChainLimit(multiply(nominal, rational(1000)))
    if (!limit.ok) return limit
    return {
      ok: true,
      figures: [
        {
          name: 'limit',
          what: 'Out of use from',
          kind: 'length',
          units: ['mm', 'in'],
          value: divide(limit.value.limit, rational(1000)),
          rounding: 'down',
          isRounded: true,
        },
        {
          name: 'elongation',
          what: 'Longer by',
          kind: 'ratio',
          units: ['%'],
          value: divide(limit.value.elongation, hundred),
          digits: 2,
        },
      ],
      notes: [limit.value.isFromTable ? 'From the table.' : 'Not in the table: 2.5 % taken.', liftCaution],
    }
  },
})

export const chainCalculators: readonly Calculator[] = [chainSling, chainWear, hoistChain]
