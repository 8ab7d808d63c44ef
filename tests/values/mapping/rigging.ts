import { isZero, larger, smaller, subtract } from '../../../src/quantities/rational.ts'
import { betweenUnits } from '../../../src/trade/between-units.ts'
import {
  chainWornOut,
  type HeatTable,
  heatReduction,
  hoistChainLimit,
  reducedBy,
} from '../../../src/trade/lifting/chain-condition.ts'
import {
  type ChainGrade,
  type ChainRatings,
  chainGrades,
  chainProofLoads,
  chainRatings,
  ratingsFromSingle,
  singleBehindDouble,
  usualGrade,
} from '../../../src/trade/lifting/chain-sling.ts'
import { percentAtAngle, ratingAtAngle, weakestItem } from '../../../src/trade/lifting/hardware.ts'
import { chainKilograms, chokerRating, wireRopeKilograms, wireRopeShortTons } from '../../../src/trade/lifting/hitch.ts'
import {
  bridleTension,
  carryingLegs,
  legEfficiency,
  legRating,
  legTension,
  pullOfShare,
  sharesOfTwo,
  slingCapacity,
  tensionFactor,
  uprightCapacity,
} from '../../../src/trade/lifting/leg-tension.ts'
import { estimateHolds, poundsOf, proofLoadOf, ratedAfterTest, volumeOf } from '../../../src/trade/lifting/load.ts'
import { offCentreLevel, offCentreMeasured } from '../../../src/trade/lifting/off-centre.ts'
import {
  type AngleConvention,
  countsAsVertical,
  fromHorizontal,
  judgeAngle,
  listedAngle,
  riseFromLengths,
  riseOfLeg,
} from '../../../src/trade/lifting/sling-angle.ts'
import { sidePullAllowed, wrapsAreEnough } from '../../../src/trade/thresholds/hoists.ts'
import type { CaseMapping, Outcome } from '../mapping.ts'
import {
  figure,
  figureAs,
  type Inputs,
  type Item,
  itemOf,
  numbersOf,
  perItem,
  solved,
  unitOf,
  wordsOf,
} from './reading.ts'

const conventions: Readonly<Record<string, AngleConvention>> = {
  angle_from_horizontal: 'from-horizontal',
  angle: 'from-horizontal',
  angle_from_vertical: 'from-vertical',
  included_angle: 'included',
}

/** The angle from horizontal, in degrees, however the case tells it. */
function levelOf(item: Item) {
  const name = Object.keys(conventions).find((each) => item.has(each)) ?? ''
  return solved(fromHorizontal(item.number(name), conventions[name] ?? 'from-horizontal'))
}

const riseOf = (item: Item) => riseOfLeg(levelOf(item))
const lengthRise = (item: Item) => solved(riseFromLengths(item.number('H'), item.number('L')))
const angles = Object.keys(conventions)

/** The table's row where it holds the same single rating, else the rule behind the table. */
function ratingsOf(inputs: Inputs): ChainRatings {
  const [single] = numbersOf(inputs, 'single')
  if (!single) throw new Error('no single rating')
  const [grade = '', size = ''] = [wordsOf(inputs, 'grade'), wordsOf(inputs, 'size')].map(([word]) => word)
  const row = chainRatings(grade, size, 'printed')
  return row.ok && isZero(subtract(row.value.single, single)) ? row.value : solved(ratingsFromSingle(single))
}

const columns = ['double60', 'double45', 'double30', 'triquad60', 'triquad45', 'triquad30'] as const

function ratingOutcomes(inputs: Inputs): Readonly<Record<string, Outcome>> {
  const { double, tripleOrQuad } = ratingsOf(inputs)
  const values = [...double, ...tripleOrQuad]
  return Object.fromEntries(values.map((value, index) => [columns[index] ?? '', figureAs(inputs, 'single', value)]))
}

export const rigging: readonly CaseMapping[] = [
  {
    inputs: angles,
    expected: ['reduction', 'tension', 'allowed'],
    work: (inputs) => ({
      reduction: perItem(inputs, (item) => figure(riseOf(item), '')),
      tension: perItem(inputs, (item) => figure(solved(tensionFactor(riseOf(item))), '')),
      allowed: perItem(inputs, (item) => judgeAngle(levelOf(item)) !== 'not allowed'),
    }),
  },
  {
    inputs: ['angle_from_vertical'],
    expected: ['vertical'],
    work: (inputs) => ({
      vertical: perItem(inputs, (item) => countsAsVertical(item.number('angle_from_vertical'))),
    }),
  },
  {
    inputs: ['angle_from_horizontal', 'listed'],
    expected: ['used'],
    work: (inputs) => {
      const listed = numbersOf(inputs, 'listed')
      const used = numbersOf(inputs, 'angle_from_horizontal').map((angle) =>
        figureAs(inputs, 'listed', solved(listedAngle(angle, listed))),
      )
      return { used }
    },
  },
  {
    inputs: [...angles, 'WLL'],
    expected: ['efficiency', 'reduced', 'use_allowed'],
    work: (inputs) => ({
      efficiency: perItem(inputs, (item) => figure(solved(legEfficiency(riseOf(item))), '%')),
      reduced: perItem(inputs, (item) => figureAs(inputs, 'WLL', solved(legRating(item.number('WLL'), riseOf(item))))),
      use_allowed: perItem(inputs, (item) => judgeAngle(levelOf(item)) !== 'not allowed'),
    }),
  },
  {
    inputs: ['H', 'L', 'WLL'],
    expected: ['ratio', 'reduced'],
    work: (inputs) => ({
      ratio: perItem(inputs, (item) => figure(lengthRise(item), '')),
      reduced: perItem(inputs, (item) =>
        figureAs(inputs, 'WLL', solved(legRating(item.number('WLL'), lengthRise(item)))),
      ),
    }),
  },
  {
    inputs: ['L', 'H', 'share'],
    expected: ['factor', 'tension'],
    work: (inputs) => ({
      factor: perItem(inputs, (item) => figure(solved(tensionFactor(lengthRise(item))), '')),
      tension: perItem(inputs, (item) =>
        figureAs(inputs, 'share', solved(pullOfShare(item.number('share'), lengthRise(item)))),
      ),
    }),
  },
  {
    // How many legs carry is told, or else all of them do: these are worked with even sharing.
    inputs: ['W', 'legs', 'effective_legs', ...angles],
    expected: ['T', 'angle_from_horizontal'],
    work: (inputs) => ({
      T: perItem(inputs, (item) => {
        const told = item.has('effective_legs') ? 'effective_legs' : 'legs'
        const carrying = solved(carryingLegs(item.count(told), 'all-carry'))
        return figureAs(inputs, 'W', solved(legTension(item.number('W'), carrying, riseOf(item))))
      }),
      angle_from_horizontal: perItem(inputs, (item) => figure(levelOf(item), 'deg')),
    }),
  },
  {
    inputs: ['L', 'W', 'H', 'shackle_WLL'],
    expected: ['T', 'shackle_ok'],
    work: (inputs) => {
      const pull = (item: Item) => solved(bridleTension(item.number('W'), lengthRise(item)))
      return {
        T: perItem(inputs, (item) => figureAs(inputs, 'W', pull(item))),
        shackle_ok: perItem(
          inputs,
          (item) =>
            item.has('shackle_WLL') &&
            solved(weakestItem([{ name: 'shackle', rating: item.number('shackle_WLL'), pull: pull(item) }])).isEnough,
        ),
      }
    },
  },
  {
    inputs: ['W', 'a', 'b'],
    expected: ['near', 'far'],
    work: (inputs) => {
      const shares = (item: Item) => solved(sharesOfTwo(item.number('W'), item.number('a'), item.number('b')))
      return {
        near: perItem(inputs, (item) => figureAs(inputs, 'W', larger(shares(item).first, shares(item).second))),
        far: perItem(inputs, (item) => figureAs(inputs, 'W', smaller(shares(item).first, shares(item).second))),
      }
    },
  },
  {
    inputs: ['W', 'D1', 'D2', 'H'],
    expected: ['S1', 'S2', 'TS1', 'TS2', 'horizontal_difference', 'angle1', 'angle2'],
    work: (inputs) => {
      const { first, second, horizontalDifference } = solved(offCentreLevel(offCentreOf(inputs)))
      return {
        S1: figureAs(inputs, 'H', first.length),
        S2: figureAs(inputs, 'H', second.length),
        TS1: figureAs(inputs, 'W', first.tension),
        TS2: figureAs(inputs, 'W', second.tension),
        horizontal_difference: figureAs(inputs, 'W', horizontalDifference),
        angle1: figure(first.angle, 'deg'),
        angle2: figure(second.angle, 'deg'),
      }
    },
  },
  {
    inputs: ['W', 'S1', 'S2', 'D1', 'D2', 'H'],
    expected: ['TS1', 'TS2', 'geometry_consistent'],
    work: (inputs) => {
      const item = itemOf(inputs)
      const { first, second, isConsistent } = solved(
        offCentreMeasured(offCentreOf(inputs), item.number('S1'), item.number('S2')),
      )
      return {
        TS1: figureAs(inputs, 'W', first.tension),
        TS2: figureAs(inputs, 'W', second.tension),
        geometry_consistent: isConsistent,
      }
    },
  },
  {
    inputs: ['WLL', 'factor'],
    expected: ['choker'],
    work: (inputs) => ({
      choker: perItem(inputs, (item) =>
        figureAs(inputs, 'WLL', solved(chokerRating(item.number('WLL'), item.number('factor')))),
      ),
    }),
  },
  {
    inputs: ['n', 'WLL', 'H', 'L'],
    expected: ['assembly'],
    work: (inputs) => ({
      assembly: perItem(inputs, (item) =>
        figureAs(inputs, 'WLL', solved(slingCapacity(item.number('WLL'), item.count('n'), lengthRise(item)))),
      ),
    }),
  },
  {
    inputs: ['WLL', 'legs'],
    expected: ['total'],
    work: (inputs) => ({
      total: perItem(inputs, (item) =>
        figureAs(inputs, 'WLL', solved(uprightCapacity(item.number('WLL'), item.count('legs')))),
      ),
    }),
  },
  { inputs: ['grade', 'size', 'single'], expected: columns, work: ratingOutcomes },
  {
    inputs: ['single'],
    expected: ['single_test', 'double_test', 'triquad_test'],
    work: (inputs) => {
      const loads = solved(chainProofLoads(itemOf(inputs).number('single')))
      return {
        single_test: figureAs(inputs, 'single', loads.single),
        double_test: figureAs(inputs, 'single', loads.double),
        triquad_test: figureAs(inputs, 'single', loads['triple-or-quad']),
      }
    },
  },
  {
    // What is printed beside it is what may be wrong.
    inputs: ['printed', 'double60'],
    expected: ['single'],
    work: (inputs) => ({
      single: figureAs(inputs, 'double60', solved(singleBehindDouble(itemOf(inputs).number('double60')))),
    }),
  },
  {
    // The names tell the grade.
    inputs: ['temperature', 'WLL'],
    expected: chainGrades.flatMap((grade) => [`g${grade}_reduction`, `g${grade}_WLL`]),
    work: (inputs) =>
      Object.fromEntries(
        chainGrades.flatMap((grade) => {
          const reduction = (item: Item) => heatOf(inputs, item, grade, 'larger-reduction')
          return [
            [`g${grade}_reduction`, perItem(inputs, (item) => figure(reduction(item), '%'))],
            [
              `g${grade}_WLL`,
              perItem(inputs, (item) => figureAs(inputs, 'WLL', reducedBy(item.number('WLL'), reduction(item)))),
            ],
          ]
        }),
      ),
  },
  {
    inputs: ['temperature'],
    expected: ['newer', 'older'],
    work: (inputs) => ({
      newer: perItem(inputs, (item) => figure(heatOf(inputs, item, usualGrade, 'newer'), '%')),
      older: perItem(inputs, (item) => figure(heatOf(inputs, item, usualGrade, 'older'), '%')),
    }),
  },
  {
    inputs: ['D'],
    expected: ['SWL', 'SWL_lb'],
    work: (inputs) => {
      const tons = (item: Item) => solved(wireRopeShortTons(betweenUnits(item.number('D'), unitOf(inputs, 'D'), 'in')))
      return {
        SWL: perItem(inputs, (item) => figure(tons(item), 'short ton')),
        // A weight of so many pounds pulls with as many pounds-force.
        SWL_lb: perItem(inputs, (item) => figure(betweenUnits(tons(item), 'short ton', 'lb'), 'lbf')),
      }
    },
  },
  {
    inputs: ['rope', 'chain'],
    expected: ['rope_WLL', 'chain_WLL'],
    work: (inputs) => {
      const inMillimetres = (item: Item, name: string) => betweenUnits(item.number(name), unitOf(inputs, name), 'mm')
      return {
        rope_WLL: perItem(inputs, (item) => figure(solved(wireRopeKilograms(inMillimetres(item, 'rope'))), 'kg')),
        chain_WLL: perItem(inputs, (item) => figure(solved(chainKilograms(inMillimetres(item, 'chain'))), 'kg')),
      }
    },
  },
  {
    inputs: ['stock', 'worn'],
    expected: ['remove'],
    work: (inputs) => ({
      remove: perItem(inputs, (item) =>
        solved(chainWornOut(item.number('stock'), item.number('worn'), 'quarter-of-stock')),
      ),
    }),
  },
  {
    inputs: ['nominal'],
    expected: ['limit', 'elongation'],
    work: (inputs) => {
      const limit = (item: Item) =>
        solved(hoistChainLimit(betweenUnits(item.number('nominal'), unitOf(inputs, 'nominal'), 'mm')))
      return {
        limit: perItem(inputs, (item) => figure(limit(item).limit, 'mm')),
        elongation: perItem(inputs, (item) => figure(limit(item).elongation, '%')),
      }
    },
  },
  {
    inputs: ['rating', 'angle_from_axis'],
    expected: ['percent', 'load'],
    work: (inputs) => ({
      percent: perItem(inputs, (item) =>
        figure(solved(percentAtAngle(item.number('angle_from_axis'), 'shoulder-eyebolt')), '%'),
      ),
      load: perItem(inputs, (item) =>
        figureAs(
          inputs,
          'rating',
          solved(ratingAtAngle(item.number('rating'), item.number('angle_from_axis'), 'shoulder-eyebolt')),
        ),
      ),
    }),
  },
  {
    inputs: ['sling_WLL', 'eyebolt_WLL', ...angles],
    expected: ['sling', 'eyebolt', 'governs'],
    work: (inputs) => {
      const item = itemOf(inputs)
      const level = levelOf(item)
      const fromAxis = solved(fromHorizontal(level, 'from-vertical'))
      const sling = solved(legRating(item.number('sling_WLL'), riseOfLeg(level)))
      const eyebolt = solved(ratingAtAngle(item.number('eyebolt_WLL'), fromAxis, 'shoulder-eyebolt'))
      const pull = larger(sling, eyebolt)
      const items = [
        { name: 'sling', rating: sling, pull },
        { name: 'eyebolt', rating: eyebolt, pull },
      ]
      return {
        sling: figureAs(inputs, 'sling_WLL', sling),
        eyebolt: figureAs(inputs, 'eyebolt_WLL', eyebolt),
        governs: solved(weakestItem(items)).weakest,
      }
    },
  },
  {
    inputs: ['rated'],
    expected: ['test'],
    work: (inputs) => ({
      test: perItem(inputs, (item) => figureAs(inputs, 'rated', solved(proofLoadOf(item.number('rated'))))),
    }),
  },
  {
    inputs: ['test_load'],
    expected: ['rated_max'],
    work: (inputs) => ({
      rated_max: perItem(inputs, (item) =>
        figureAs(inputs, 'test_load', solved(ratedAfterTest(item.number('test_load')))),
      ),
    }),
  },
  {
    inputs: ['true', 'estimate'],
    expected: ['ok'],
    work: (inputs) => ({
      ok: perItem(inputs, (item) => solved(estimateHolds(item.number('true'), item.number('estimate')))),
    }),
  },
  {
    inputs: ['side_pull', 'authorised', 'wraps'],
    expected: ['side_ok', 'wraps_ok'],
    work: (inputs) => ({
      side_ok: perItem(inputs, (item) => sidePullAllowed(item.isTrue('side_pull'), item.isTrue('authorised'))),
      wraps_ok: perItem(inputs, (item) => item.has('wraps') && solved(wrapsAreEnough(item.number('wraps')))),
    }),
  },
  {
    inputs: ['size'],
    expected: ['weight'],
    work: (inputs) => {
      const [length, width, height] = numbersOf(inputs, 'size').map((size) =>
        betweenUnits(size, unitOf(inputs, 'size'), 'ft'),
      )
      if (!length || !width || !height) throw new Error('a block has three sizes')
      return { weight: figure(poundsOf('steel', solved(volumeOf({ shape: 'block', length, width, height }))), 'lbf') }
    },
  },
]

function offCentreOf(inputs: Inputs) {
  const item = itemOf(inputs)
  return {
    load: item.number('W'),
    firstDistance: item.number('D1'),
    secondDistance: item.number('D2'),
    height: item.number('H'),
  }
}

function heatOf(inputs: Inputs, item: Item, grade: ChainGrade, table: HeatTable) {
  const degrees = betweenUnits(item.number('temperature'), unitOf(inputs, 'temperature'), '°F')
  return solved(heatReduction(degrees, grade, table)).reduction
}
