import { divide, multiply, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { betweenUnits } from '../between-units.ts'
import type { Calculator } from '../calculator.ts'
import { liftCaution } from '../cautions.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import {
  type AngleTableName,
  angleTables,
  type HardwareName,
  hardwareRatingOf,
  hardwareTables,
  percentAtAngle,
  ratingAtAngle,
  weakestItem,
} from './hardware.ts'
import { basketRating, chokerRating, percentAtChoke, percentOverBend, usualChoker } from './hitch.ts'
import { angleFigures, angleInputs, angleNotes, degrees, legOf, weightUnits } from './leg-inputs.ts'

import {
  mayBeUsedAt,
  type SlingMaterial,
  temperatureLimits,
  type WireRopeMode,
  wireRopeRating,
  wireRopeSizes,
} from './wire-rope.ts'

/** Calculators of slings and what connects them. */

const hundred = rational(100)

const hitchRating = makeCalculator({
  name: 'hitch-rating',
  what: 'What is left of the straight rating of a sling in a choker or basket hitch, and over a bend.',
  formula: 'choker: WLL f (choke %); basket: 2 WLL sin a = 2 WLL H/L; bend: times the % kept at D/d',
  validity: 'The tag of the sling comes first. A choker needs no leg angle; a basket needs angle or lengths.',
  source: `${usualChoker.source}; choke angle: ASME B30.9, from memory; D/d: wire rope users' manuals, from memory`,
  inputs: {
    rating: { what: 'rating of the sling, straight', kind: 'mass', unit: 'kg', symbol: 'WLL' },
    hitch: { what: 'the hitch', kind: 'word', choices: ['vertical', 'choker', 'basket'] },
    'choker-factor': {
      what: 'choker rating over straight rating, 0.75 unless the tag says',
      kind: 'number',
      symbol: 'f',
      optional: true,
    },
    choke: { what: 'angle of choke', kind: 'angle', unit: '°', optional: true },
    bend: { what: 'diameter of what the rope is bent over', kind: 'length', unit: 'mm', symbol: 'D', optional: true },
    rope: { what: 'diameter of the wire rope', kind: 'length', unit: 'mm', symbol: 'd', optional: true },
    ...angleInputs,
  },
  work: (given) => {
    let left = given.rating
    const figures: Figure[] = []
    const notes: string[] = []
    if (given.hitch === 'choker') {
      const choker = chokerRating(given.rating, given['choker-factor'] ?? usualChoker.factor)
      if (!choker.ok) return choker
      left = choker.value
      if (given.choke === null) notes.push('Without an angle of choke it is taken as 120° and more.')
      const percent = percentAtChoke(given.choke === null ? rational(120) : degrees(given.choke))
      if (!percent.ok) return percent
      left = divide(multiply(left, percent.value), hundred)
      figures.push({
        name: 'choke-percent',
        what: 'Kept at that choke',
        kind: 'ratio',
        units: ['%'],
        value: divide(percent.value, hundred),
      })
    }
    if (given.hitch === 'basket') {
      const leg = legOf(given)
      if (!leg.ok) return leg
      const basket = basketRating(given.rating, leg.value.rise)
      if (!basket.ok) return basket
      left = basket.value
      figures.push(...angleFigures('leg-angle', 'Angle from horizontal', leg.value.angle))
      notes.push(...angleNotes(leg.value.angle))
    }
    if ((given.bend === null) !== (given.rope === null))
      return refuse(given.bend === null ? 'bend' : 'rope', 'Bend and rope are both needed.', 'Give both or none.')
    if (given.bend !== null && given.rope !== null) {
      const percent = percentOverBend(given.bend, given.rope)
      if (!percent.ok) return percent
      left = divide(multiply(left, percent.value), hundred)
      figures.push({
        name: 'bend-percent',
        what: 'Kept over the bend',
        kind: 'ratio',
        units: ['%'],
        value: divide(percent.value, hundred),
      })
    }
    return {
      ok: true,
      figures: [
        {
          name: 'hitch-rating',
          what: 'Rating in this hitch',
          kind: 'mass',
          units: weightUnits,
          value: left,
          isRounded: true,
          rounding: 'down',
        },
        ...figures,
      ],
      notes: [...notes, liftCaution],
    }
  },
})

const wireRopeSling = makeCalculator({
  name: 'wire-rope-sling',
  what: 'Rating of a wire rope sling leg by size, and whether a sling stands a temperature.',
  formula: 'table of sizes; rule of thumb 8 D² short tons, D in inches; the smaller is the default',
  validity: `Sizes ${wireRopeSizes.join(', ')} in; wire core, mechanical splice. The tag of the sling comes first.`,
  source:
    'Wire rope sling tables after ASME B30.9, from memory; 8 D²: Steelworker 2, p. 64; temperature: 29 CFR 1910.184, from memory',
  inputs: {
    size: { what: 'rope size in inches', kind: 'size' },
    values: {
      what: 'table, rule of thumb or the smaller of both',
      kind: 'word',
      choices: ['table', 'rule-of-thumb', 'stricter'],
      optional: true,
    },
    material: {
      what: 'kind of sling, for the temperature',
      kind: 'word',
      choices: Object.keys(temperatureLimits),
      optional: true,
    },
    temperature: { what: 'temperature of the sling', kind: 'temperature', unit: '°F', optional: true },
  },
  work: ({ size, values, material, temperature }) => {
    const rating = wireRopeRating(size.replace(/\s*(?:in|")\s*$/, ''), (values as WireRopeMode | null) ?? 'stricter')
    if (!rating.ok) return rating
    const kind = (material as SlingMaterial | null) ?? 'wire rope, fibre core'
    const stands = temperature === null ? null : mayBeUsedAt(betweenUnits(temperature, 'K', '°F'), kind)
    return {
      ok: true,
      figures: [
        {
          name: 'rating',
          what: 'One straight leg',
          kind: 'mass',
          units: weightUnits,
          value: betweenUnits(rating.value, 'short ton', 'kg'),
          isRounded: true,
          rounding: 'down',
        },
        ...(stands === null
          ? []
          : [
              {
                name: 'temperature-verdict',
                what: `At this temperature (${kind})`,
                word: stands ? 'may be used' : 'may not be used: ask the maker',
              },
            ]),
      ],
      notes: [liftCaution],
    }
  },
})

const hardwareRating = makeCalculator({
  name: 'hardware-rating',
  what: 'Usual rating of a shackle or shoulder eyebolt by size, along its axis.',
  formula: 'from the table',
  validity:
    'Forged carbon steel, marked with a rating. What is marked on the part comes first; without a mark it does not lift.',
  source: Object.values(hardwareTables)
    .map(({ source }) => source)
    .join('; '),
  inputs: {
    part: { what: 'the part', kind: 'word', choices: Object.keys(hardwareTables) },
    size: { what: 'size in inches', kind: 'size' },
  },
  work: ({ part, size }) => {
    const rating = hardwareRatingOf(part as HardwareName, size.replace(/\s*(?:in|")\s*$/, ''))
    if (!rating.ok) return rating
    const { unit } = hardwareTables[part as HardwareName]
    return {
      ok: true,
      figures: [
        {
          name: 'rating',
          what: 'Rating along the axis',
          kind: 'mass',
          units: weightUnits,
          value: betweenUnits(rating.value, unit, 'kg'),
          isRounded: true,
          rounding: 'down',
        },
      ],
      notes: [liftCaution],
    }
  },
})

const angledHardware = makeCalculator({
  name: 'angled-hardware',
  what: 'Rating of an eyebolt or shackle pulled at an angle from its axis.',
  formula: 'rating × percent of the table at the next larger angle',
  validity: 'Eyebolts seated to the shoulder, pulled in the plane of the eye. Plain eyebolts along the axis only.',
  source: Object.values(angleTables)
    .map(({ source }) => source)
    .join('; '),
  inputs: {
    part: { what: 'the part', kind: 'word', choices: Object.keys(angleTables) },
    rating: { what: 'rating along the axis', kind: 'mass', unit: 'kg', symbol: 'WLL' },
    angle: { what: 'angle of the pull from the axis', kind: 'angle', unit: '°', sign: 'not-negative' },
  },
  work: ({ part, rating, angle }) => {
    const percent = percentAtAngle(degrees(angle), part as AngleTableName)
    if (!percent.ok) return percent
    const left = ratingAtAngle(rating, degrees(angle), part as AngleTableName)
    if (!left.ok) return left
    return {
      ok: true,
      figures: [
        {
          name: 'rating-left',
          what: 'Rating at this angle',
          kind: 'mass',
          units: weightUnits,
          value: left.value,
          rounding: 'down',
          isRounded: true,
        },
        {
          name: 'percent',
          what: 'Left of the rating',
          kind: 'ratio',
          units: ['%'],
          value: divide(percent.value, hundred),
          isRounded: true,
        },
      ],
      notes: [liftCaution],
    }
  },
})

const liftingTrain = makeCalculator({
  name: 'lifting-train',
  what: 'The weakest item from hook to load, by pull over rating.',
  formula: 'used = pull/rating; the largest decides',
  validity: 'As many names, ratings and pulls as items, in one order; every item between hook and load.',
  source: 'Common practice of lift planning, no published source',
  inputs: {
    names: { what: 'items from hook to load', kind: 'text', list: true },
    ratings: { what: 'what each may take', kind: 'mass', unit: 'kg', list: true },
    pulls: { what: 'what each has to take', kind: 'mass', unit: 'kg', list: true },
  },
  work: ({ names, ratings, pulls }) => {
    if (names.length !== ratings.length || names.length !== pulls.length)
      return refuse(
        names.length === ratings.length ? 'pulls' : 'ratings',
        `${names.length} items, ${ratings.length} ratings and ${pulls.length} pulls do not fit together.`,
        'Type one rating and one pull for each item.',
      )
    const items = names.flatMap((name, index) => {
      const [rating, pull] = [ratings[index], pulls[index]]
      return rating && pull ? [{ name, rating, pull }] : []
    })
    const verdict = weakestItem(items)
    if (!verdict.ok) return verdict
    return {
      ok: true,
      figures: [
        { name: 'weakest', what: 'Weakest item', word: verdict.value.weakest },
        {
          name: 'used',
          what: 'Used of its rating',
          kind: 'ratio',
          units: ['%'],
          value: verdict.value.used,
          rounding: 'up',
        },
        { name: 'verdict', what: 'The train', word: verdict.value.isEnough ? 'is enough' : 'is not enough' },
      ],
      notes: [liftCaution],
    }
  },
})

export const gearCalculators: readonly Calculator[] = [
  hitchRating,
  wireRopeSling,
  hardwareRating,
  angledHardware,
  liftingTrain,
]
