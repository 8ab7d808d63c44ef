import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { nutFactors } from './tightening-tables.ts'
import {
  boltTensionOf,
  boltTorqueOf,
  elongation,
  frictionTorque,
  heatingTemperature,
  largestPreload,
  preloadOfTurn,
  turnOfNut,
} from './torque.ts'

const nasa = 'NASA-STD-5020B, Requirements for Threaded Fastening Systems in Spaceflight Hardware, 6 Aug 2021'
const handbook = 'MIL-HDBK-60, Threaded Fasteners – Tightening to Proper Tension, 12 Mar 1990'
const torqueUnits = ['N·m', 'lbf·ft'] as const
const forceUnits = ['N', 'lbf'] as const
const percent = (value: number): Rational => rational(value, 100)

const nutFactorInputs = {
  'nut-factor': { what: 'nut factor from tests or the maker', kind: 'number', symbol: 'K', optional: true },
  finish: {
    what: 'finish of the threads, where no nut factor is known',
    kind: 'word',
    choices: Object.keys(nutFactors),
    optional: true,
  },
} as const

/** Null where it is not said, or said twice. */
function nutFactorOf(given: {
  readonly 'nut-factor': Rational | null
  readonly finish: string | null
}): Rational | null {
  const tabled = given.finish === null ? null : percent(nutFactors[given.finish] ?? 0)
  if (tabled !== null && given['nut-factor'] !== null) return null
  return given['nut-factor'] ?? tabled
}

const nutFactorUnclear = refuse(
  'nut-factor',
  'The nut factor is not clear.',
  `Give nut-factor, or finish (${Object.keys(nutFactors).join(', ')}), and not both.`,
)

export const boltTorque = makeCalculator({
  name: 'bolt-torque',
  what: 'Torque for a wanted preload.',
  formula: 'T = K · D · F',
  validity:
    'Torque alone leaves the preload uncertain by 25 % (lubricated) to 35 % (dry). Below the yield of the bolt.',
  source: `${nasa}, appendix A.2; nut factors of finishes: common practice, as in tables of SAE J429 bolts`,
  inputs: {
    ...nutFactorInputs,
    diameter: { what: 'nominal diameter', kind: 'length', unit: 'mm', symbol: 'D' },
    preload: { what: 'wanted preload', kind: 'force', unit: 'N', symbol: 'F' },
  },
  work: (given) => {
    const factor = nutFactorOf(given)
    if (factor === null) return nutFactorUnclear
    const value = boltTorqueOf(factor, given.diameter, given.preload)
    return {
      ok: true,
      figures: [{ name: 'torque', what: 'torque', kind: 'torque', units: torqueUnits, value, digits: 3 }],
    }
  },
})

export const boltTension = makeCalculator({
  name: 'bolt-tension',
  what: 'Preload that a torque makes, and the largest it may make.',
  formula: 'F = T / (K · D); largest F = (1 + Γ) · T / (K · D)',
  validity: 'Torque above running torque. Below the yield of the bolt.',
  source: `${nasa}, 4.3 and appendix A.2`,
  inputs: {
    torque: {
      what: 'torque (the largest allowed one for the largest preload)',
      kind: 'torque',
      unit: 'N·m',
      symbol: 'T',
    },
    ...nutFactorInputs,
    diameter: { what: 'nominal diameter', kind: 'length', unit: 'mm', symbol: 'D' },
    scatter: {
      what: 'scatter of the preload, from preload-scatter',
      kind: 'number',
      symbol: 'Γ',
      sign: 'not-negative',
      optional: true,
    },
  },
  work: (given) => {
    const factor = nutFactorOf(given)
    if (factor === null) return nutFactorUnclear
    const { torque, diameter, scatter } = given
    const shared = { kind: 'force', units: forceUnits, digits: 4 } as const
    const figures: Figure[] = [
      { name: 'preload', what: 'preload', value: boltTensionOf(torque, factor, diameter), ...shared },
    ]
    if (scatter !== null)
      figures.push({
        name: 'preload-max',
        what: 'largest preload',
        value: largestPreload(torque, factor, diameter, scatter),
        ...shared,
      })
    return { ok: true, figures }
  },
})

const stretchInputs = {
  stress: { what: 'wanted stress in the bolt', kind: 'pressure', unit: 'MPa', symbol: 'σ' },
  modulus: { what: 'modulus of elasticity; steel is 205 GPa, 30 000 ksi', kind: 'pressure', unit: 'MPa', symbol: 'E' },
} as const

export const turnOfNutAngle = makeCalculator({
  name: 'turn-of-nut',
  what: 'Turn of the nut past snug for a wanted stress, and the stretch of the bolt.',
  formula: 'θ = 360° · σ · L / (E · P); δ = σ · L / E',
  validity:
    'Below yield, and only where the joint does not give: parts and gaskets that are squeezed need more turn. Try it with a stretch gauge first.',
  source: `${handbook}, 6.2.1 and 6.2.4`,
  inputs: {
    ...stretchInputs,
    length: { what: 'effective length of the bolt', kind: 'length', unit: 'mm', symbol: 'L' },
    lead: { what: 'lead of the thread (its pitch, where it has one start)', kind: 'length', unit: 'mm', symbol: 'P' },
  },
  work: ({ stress, modulus, length, lead }) => ({
    ok: true,
    figures: [
      {
        name: 'angle',
        what: 'turn',
        kind: 'angle',
        units: ['°'],
        value: turnOfNut(stress, length, modulus, lead),
        digits: 3,
      },
      {
        name: 'elongation',
        what: 'stretch',
        kind: 'length',
        units: ['mm', 'in'],
        value: elongation(stress, length, modulus),
        digits: 3,
      },
    ],
  }),
})

export const torqueThenAngle = makeCalculator({
  name: 'torque-then-angle',
  what: 'Preload after a snug torque and a further turn, and whether it stays below the proof load.',
  formula: 'F = T / (K · D) + θ / 360° · P · E · A / L',
  validity:
    'Below the proof load, in a joint that does not give: parts that give make it less. The turn counts from the snug torque. Tightening past yield is by the maker’s figures alone.',
  source: `${nasa}, appendix A.2 (snug torque); ${handbook}, 6.2.4 (turn)`,
  inputs: {
    snug: { what: 'snug torque', kind: 'torque', unit: 'N·m', symbol: 'T' },
    ...nutFactorInputs,
    diameter: { what: 'nominal diameter', kind: 'length', unit: 'mm', symbol: 'D' },
    angle: { what: 'turn from snug', kind: 'angle', unit: '°', symbol: 'θ' },
    lead: { what: 'lead of the thread', kind: 'length', unit: 'mm', symbol: 'P' },
    modulus: stretchInputs.modulus,
    area: { what: 'area of the bolt that is stretched', kind: 'area', unit: 'mm²', symbol: 'A' },
    length: { what: 'effective length of the bolt', kind: 'length', unit: 'mm', symbol: 'L' },
    'proof-load': { what: 'proof load, from bolt-proof-load', kind: 'force', unit: 'kN', optional: true },
  },
  work: (given) => {
    const factor = nutFactorOf(given)
    if (factor === null) return nutFactorUnclear
    const snug = boltTensionOf(given.snug, factor, given.diameter)
    const turned = preloadOfTurn(given.angle, given.lead, given.modulus, given.area, given.length)
    const value = add(snug, turned)
    const proof = given['proof-load']
    const shared = { kind: 'force', units: forceUnits, digits: 3 } as const
    const figures: Figure[] = [
      { name: 'snug-preload', what: 'preload of the snug torque', value: snug, ...shared },
      { name: 'preload', what: 'preload in the end', value, ...shared },
    ]
    if (proof === null) return { ok: true, figures }
    const isBelow = compare(value, proof) <= 0
    figures.push({ name: 'below-proof', what: 'below the proof load', word: isBelow ? 'yes' : 'no' })
    return { ok: true, figures, notes: isBelow ? [] : ['Caution: above the proof load the bolt yields. Turn it less.'] }
  },
})

export const boltHeating = makeCalculator({
  name: 'bolt-heating',
  what: 'Temperature to which a bolt is heated so that it has the wanted stress when it is cold again.',
  formula: 't = t₀ + σ / (E · α)',
  validity: 'The joint stays at t₀ and does not give. Look up what heat does to the grade before anything is heated.',
  source: `${handbook}, 6.3.2`,
  inputs: {
    ...stretchInputs,
    expansion: { what: 'coefficient of thermal expansion', kind: 'thermal-expansion', unit: '1/K', symbol: 'α' },
    start: { what: 'temperature of the joint', kind: 'temperature', unit: '°C', symbol: 't₀' },
  },
  work: ({ stress, modulus, expansion, start }) => ({
    ok: true,
    figures: [
      {
        name: 'temperature',
        what: 'temperature of the bolt',
        kind: 'temperature',
        units: ['°C', '°F'],
        value: heatingTemperature(stress, modulus, expansion, start),
        digits: 3,
      },
    ],
  }),
})

export const torqueFromFriction = makeCalculator({
  name: 'torque-from-friction',
  what: 'Torque from the coefficient of friction, and the nut factor it amounts to.',
  formula: 'T = F · (P / 2π + 1.2 · μ · d); K = T / (F · d)',
  validity:
    'Standard hexagon heads and 60° threads, one friction for thread and head. Good to about 5 % for a known μ, which is rarely known that well.',
  source: `${handbook}, 6.4 (parts of the torque); bearing face of 1.5 d: common practice`,
  inputs: {
    preload: { what: 'preload', kind: 'force', unit: 'N', symbol: 'F' },
    lead: { what: 'lead of the thread', kind: 'length', unit: 'mm', symbol: 'P' },
    friction: { what: 'coefficient of friction', kind: 'number', symbol: 'μ' },
    diameter: { what: 'nominal diameter', kind: 'length', unit: 'mm', symbol: 'd' },
  },
  work: ({ preload, lead, friction, diameter }) => {
    const value = frictionTorque(preload, lead, friction, diameter)
    return {
      ok: true,
      figures: [
        { name: 'torque', what: 'torque', kind: 'torque', units: torqueUnits, value, isRounded: true, digits: 3 },
        {
          name: 'nut-factor',
          what: 'K',
          kind: 'number',
          value: divide(value, multiply(preload, diameter)),
          isRounded: true,
          digits: 3,
        },
      ],
    }
  },
})
