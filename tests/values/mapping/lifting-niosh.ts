import { parseNumber } from '../../../src/quantities/parse-number.ts'
import type { Rational } from '../../../src/quantities/quantity-types.ts'
import {
  type Coupling,
  couplingMultiplier,
  durationClass,
  durationOf,
  frequencyMultiplier,
  recoveryOf,
  spreadFrequency,
  type WorkDuration,
} from '../../../src/trade/handling/frequency.ts'
import {
  asymmetryMultiplier,
  distanceMultiplier,
  estimatedHorizontal,
  horizontalMultiplier,
  type LengthSystem,
  type MultiplierMode,
  verticalMultiplier,
} from '../../../src/trade/handling/multipliers.ts'
import {
  liftingIndex,
  loadConstant,
  recommendedWeight,
  travelOf,
  weightFromMultipliers,
} from '../../../src/trade/handling/recommended-weight.ts'
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

function systemOf(inputs: Inputs, name: string): LengthSystem {
  return unitOf(inputs, name) === 'in' ? 'inch' : 'metric'
}

const weightUnit = (system: LengthSystem) => (system === 'inch' ? 'lb' : 'kg')

/** `<=1` and `2-8` end with the hours that they go up to. */
function durationIn(item: Item): WorkDuration {
  const last = parseNumber(item.word('duration').match(/[\d.]+$/)?.[0] ?? '')
  if (!last.ok) throw new Error(last.problem.message)
  return solved(durationOf(last.value.value))
}

const frequency = (item: Item, duration: WorkDuration, low: boolean) =>
  figure(solved(frequencyMultiplier(item.number('F'), duration, low)), '')

const byTable = (inputs: Inputs, name: string, of: (item: Item, mode: MultiplierMode) => Rational) => ({
  table: perItem(inputs, (item) => figure(of(item, 'table'), '')),
  formula: perItem(inputs, (item) => figure(of(item, 'formula'), '')),
  [name]: perItem(inputs, (item) => figure(of(item, 'formula'), '')),
})

const names = ['HM', 'VM', 'DM', 'AM', 'FM', 'CM']

const product = (item: Item) => solved(weightFromMultipliers(loadConstant('inch'), names.map(item.number)))

function limitOf(inputs: Inputs, item: Item, travel: Rational) {
  const system = systemOf(inputs, 'H')
  return solved(
    recommendedWeight({
      system,
      mode: 'formula',
      horizontal: item.number('H'),
      vertical: item.number('V'),
      travel,
      twist: item.number('A'),
      frequencyMultiplier: item.number('FM'),
      couplingMultiplier: item.number('CM'),
    }),
  )
}

/** Names that tell in themselves which travel they are for. */
const digits = [...[...'abcdefghij'].keys()]
const travelNames = digits.flatMap((tens) => digits.map((ones) => `RWL_with_D${tens}${ones}`))

export const liftingNiosh: readonly CaseMapping[] = [
  {
    inputs: ['H'],
    expected: ['HM', 'table', 'formula'],
    work: (inputs) =>
      byTable(inputs, 'HM', (item, mode) =>
        solved(horizontalMultiplier(item.number('H'), systemOf(inputs, 'H'), mode)),
      ),
  },
  {
    inputs: ['V'],
    expected: ['VM', 'table', 'formula'],
    work: (inputs) =>
      byTable(inputs, 'VM', (item, mode) => solved(verticalMultiplier(item.number('V'), systemOf(inputs, 'V'), mode))),
  },
  {
    inputs: ['D'],
    expected: ['DM', 'table', 'formula'],
    work: (inputs) =>
      byTable(inputs, 'DM', (item, mode) => solved(distanceMultiplier(item.number('D'), systemOf(inputs, 'D'), mode))),
  },
  {
    inputs: ['A'],
    expected: ['AM', 'table', 'formula'],
    work: (inputs) => byTable(inputs, 'AM', (item, mode) => solved(asymmetryMultiplier(item.number('A'), mode))),
  },
  {
    inputs: ['F', 'duration'],
    expected: ['V_ge_30', 'V_lt_30', 'FM'],
    work: (inputs) => ({
      V_ge_30: perItem(inputs, (item) => frequency(item, durationIn(item), false)),
      V_lt_30: perItem(inputs, (item) => frequency(item, durationIn(item), true)),
      FM: perItem(inputs, (item) => frequency(item, durationIn(item), false)),
    }),
  },
  {
    inputs: ['F'],
    expected: ['short', 'moderate', 'long'],
    work: (inputs) => ({
      short: perItem(inputs, (item) => frequency(item, 'short', false)),
      moderate: perItem(inputs, (item) => frequency(item, 'moderate', false)),
      long: perItem(inputs, (item) => frequency(item, 'long', false)),
    }),
  },
  {
    inputs: ['coupling'],
    expected: ['V_lt_30', 'V_ge_30'],
    work: (inputs) => ({
      V_lt_30: perItem(inputs, (item) => figure(couplingMultiplier(item.word('coupling') as Coupling, true), '')),
      V_ge_30: perItem(inputs, (item) => figure(couplingMultiplier(item.word('coupling') as Coupling, false), '')),
    }),
  },
  {
    inputs: ['W', 'V'],
    expected: ['H'],
    work: (inputs) => ({
      H: perItem(inputs, (item) =>
        figureAs(inputs, 'W', solved(estimatedHorizontal(item.number('W'), item.number('V'), systemOf(inputs, 'W')))),
      ),
    }),
  },
  {
    inputs: ['work', 'recovery'],
    expected: ['duration', 'class'],
    work: (inputs) => {
      const { minutes, duration } = solved(durationClass(numbersOf(inputs, 'work'), numbersOf(inputs, 'recovery')))
      return { duration: figureAs(inputs, 'work', minutes), class: duration }
    },
  },
  {
    inputs: ['work'],
    expected: ['recovery'],
    work: (inputs) => ({
      recovery: perItem(inputs, (item) => figureAs(inputs, 'work', solved(recoveryOf(item.number('work'))))),
    }),
  },
  {
    inputs: ['rate', 'minutes'],
    expected: ['F'],
    work: (inputs) => ({
      F: perItem(inputs, (item) =>
        figureAs(inputs, 'rate', solved(spreadFrequency(item.number('rate'), item.number('minutes')))),
      ),
    }),
  },
  {
    inputs: ['H', 'V', 'D', 'A', 'FM', 'CM', 'load'],
    expected: ['RWL', 'LI', 'RWL_lb', 'RWL_kg'],
    work: (inputs) => {
      const system = systemOf(inputs, 'H')
      const limit = (item: Item) => limitOf(inputs, item, item.number('D'))
      const inForm = (item: Item, form: LengthSystem): Outcome => {
        const { hm, vm, dm, am } = limit(item)
        const multipliers = [hm, vm, dm, am, item.number('FM'), item.number('CM')]
        return figure(solved(weightFromMultipliers(loadConstant(form), multipliers)), weightUnit(form))
      }
      return {
        RWL: perItem(inputs, (item) => figure(limit(item).limit, weightUnit(system))),
        LI: perItem(inputs, (item) =>
          item.has('load') ? figure(solved(liftingIndex(item.number('load'), limit(item).limit)), '') : null,
        ),
        RWL_lb: perItem(inputs, (item) => inForm(item, 'inch')),
        RWL_kg: perItem(inputs, (item) => inForm(item, 'metric')),
      }
    },
  },
  {
    inputs: ['H', 'V', 'V_destination', 'FM', 'CM', 'A'],
    expected: [...travelNames, 'RWL'],
    work: (inputs, expected) => {
      const item = itemOf(inputs)
      const named = [...expected.keys()].flatMap((name) => {
        const travel = parseNumber(name.match(/\d+$/)?.[0] ?? '')
        return travel.ok ? [[name, limitOf(inputs, item, travel.value.value)] as const] : []
      })
      const between = travelOf(item.number('V'), item.number('V_destination'))
      return Object.fromEntries(
        [...named, ['RWL', limitOf(inputs, item, between)] as const].map(([name, { limit }]) => [
          name,
          figure(limit, weightUnit(systemOf(inputs, 'H'))),
        ]),
      )
    },
  },
  {
    inputs: ['load', 'RWL'],
    expected: ['LI'],
    work: (inputs) => ({
      LI: perItem(inputs, (item) => figure(solved(liftingIndex(item.number('load'), item.number('RWL'))), '')),
    }),
  },
  {
    inputs: names,
    expected: ['RWL'],
    work: (inputs) => ({ RWL: perItem(inputs, (item) => figure(product(item), 'lb')) }),
  },
  {
    // Multipliers in pairs: at the origin, at the destination.
    inputs: ['load', ...names],
    expected: ['RWL_origin', 'RWL_destination', 'LI_origin', 'LI_destination', 'RWL', 'LI'],
    work: (inputs) => {
      const pair = (of: (item: Item) => Outcome): readonly Outcome[] => {
        const both = perItem(inputs, of)
        return Array.isArray(both) ? both : [both, both]
      }
      const limits = pair((item) => figure(product(item), 'lb'))
      const indices = pair((item) => figure(solved(liftingIndex(item.number('load'), product(item))), ''))
      const [RWL_origin = null, RWL_destination = null] = limits
      const [LI_origin = null, LI_destination = null] = indices
      return { RWL_origin, RWL_destination, LI_origin, LI_destination, RWL: RWL_origin, LI: LI_origin }
    },
  },
  {
    inputs: ['LC', 'multipliers', 'load'],
    expected: ['RWL', 'LI'],
    work: (inputs) => {
      const item = itemOf(inputs)
      const limit = solved(weightFromMultipliers(item.number('LC'), numbersOf(inputs, 'multipliers')))
      return {
        RWL: figureAs(inputs, 'LC', limit),
        LI: item.has('load') ? figure(solved(liftingIndex(item.number('load'), limit)), '') : null,
      }
    },
  },
  {
    // A worked example written as a product: `51 x .83 x .96`.
    inputs: ['example'],
    expected: ['RWL'],
    work: (inputs) => {
      const factors = wordsOf(inputs, 'example').flatMap((text) => text.match(/\d*\.?\d+/g) ?? [])
      const [constant, ...rest] = factors.map((text) => {
        const read = parseNumber(text)
        if (!read.ok) throw new Error(read.problem.message)
        return read.value.value
      })
      if (!constant || rest.length < names.length)
        throw new Error('this is not a product of a constant and multipliers')
      return { RWL: figure(solved(weightFromMultipliers(constant, rest)), 'lb') }
    },
  },
]
