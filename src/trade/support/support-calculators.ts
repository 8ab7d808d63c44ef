import { divide, rational } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import type { Calculator } from '../calculator.ts'
import { supportCaution } from '../cautions.ts'
import { makeCalculator } from '../make-calculator.ts'
import { stabilityOf, supportReactions } from './reactions.ts'
import { cribCapacity, plankBending, propCapacity } from './timber.ts'

/** Calculators of what a load stands on. */

const weight = ['kg', 'lb'] as const
const force = ['kN', 'lbf'] as const

const standLoads = makeCalculator({
  name: 'stand-loads',
  what: 'The most that each stand under a load may have to carry, the weakest of them, and how far the load is from tipping.',
  formula:
    'of every three stands around the centre of gravity: moments in balance; the largest share of each stand counts',
  validity:
    '3 to 12 stands, stiff load, centre of gravity between them. Four stands never carry a quarter each for sure.',
  source: 'Statics; any three may carry: common practice, no published source',
  inputs: {
    load: { what: 'weight of the load', kind: 'mass', unit: 'kg' },
    names: { what: 'names of the stands', kind: 'text', list: true },
    x: { what: 'place of each stand, along', kind: 'length', unit: 'm', list: true, sign: 'any' },
    y: { what: 'place of each stand, across', kind: 'length', unit: 'm', list: true, sign: 'any' },
    ratings: { what: 'rating of each stand', kind: 'mass', unit: 'kg', list: true },
    'centre-x': { what: 'centre of gravity, along', kind: 'length', unit: 'm', sign: 'any' },
    'centre-y': { what: 'centre of gravity, across', kind: 'length', unit: 'm', sign: 'any' },
    'centre-height': { what: 'centre of gravity above the ground', kind: 'length', unit: 'm', optional: true },
  },
  work: (given) => {
    const { load, names, x, y, ratings } = given
    if ([x, y, ratings].some((list) => list.length !== names.length))
      return refuse(
        'names',
        `${names.length} names, ${x.length} and ${y.length} places and ${ratings.length} ratings do not fit together.`,
        'Type one of each for every stand.',
      )
    const supports = names.flatMap((name, index) => {
      const [atX, atY, rating] = [x[index], y[index], ratings[index]]
      return atX && atY && rating ? [{ name, x: atX, y: atY, rating }] : []
    })
    const verdict = supportReactions(load, { x: given['centre-x'], y: given['centre-y'] }, supports)
    if (!verdict.ok) return verdict
    const height = given['centre-height']
    const stability = height === null ? null : stabilityOf(load, verdict.value.margin, height)
    if (stability && !stability.ok) return stability
    return {
      ok: true,
      figures: [
        ...verdict.value.items.map(
          ({ name, most }) =>
            ({
              name: `load-${name}`,
              what: `Most on ${name}`,
              kind: 'mass',
              units: weight,
              value: most,
              rounding: 'up',
            }) as const,
        ),
        { name: 'weakest', what: 'Weakest stand', word: verdict.value.weakest },
        { name: 'verdict', what: 'The stands', word: verdict.value.isEnough ? 'are enough' : 'are not enough' },
        {
          name: 'margin',
          what: 'Centre of gravity inside the stands by',
          kind: 'length',
          units: ['mm', 'in'],
          value: verdict.value.margin,
          isRounded: true,
          rounding: 'down',
        },
        ...(stability
          ? ([
              {
                name: 'tipping-angle',
                what: 'Tips at a lean of',
                kind: 'angle',
                units: ['°'],
                value: divide(stability.value.tippingAngle, rational(360)),
                isRounded: true,
                rounding: 'down',
              },
              {
                name: 'tipping-push',
                what: 'Tips under a push of',
                kind: 'mass',
                units: weight,
                value: stability.value.tippingPush,
                isRounded: true,
                rounding: 'down',
              },
            ] as const)
          : []),
      ],
      notes: [supportCaution],
    }
  },
})

const cribLoad = makeCalculator({
  name: 'crib-load',
  what: 'What a crib of crossed timbers may carry, and whether it is low enough.',
  formula: 'P = n² b² f; height ≤ 3 × base',
  validity:
    'Sound timbers of one size, crossings above one another. While the load is being moved: no taller than the base is wide.',
  source: 'US Army Corps of Engineers and FEMA, Shoring Operations Guide, from memory',
  inputs: {
    timber: { what: 'width of a timber as it is', kind: 'length', unit: 'mm', symbol: 'b' },
    timbers: { what: 'timbers in a layer', kind: 'number', symbol: 'n' },
    base: { what: 'outside width of the base', kind: 'length', unit: 'mm' },
    height: { what: 'height of the crib', kind: 'length', unit: 'mm' },
    'bearing-strength': { what: 'strength of the wood across the grain', kind: 'pressure', unit: 'MPa', symbol: 'f' },
  },
  work: (given) => {
    const crib = cribCapacity({
      timberWidth: given.timber,
      timbersInLayer: given.timbers.denominator === 1n ? Number(given.timbers.numerator) : 0,
      baseWidth: given.base,
      height: given.height,
      bearingStrength: given['bearing-strength'],
    })
    if (!crib.ok) return crib
    return {
      ok: true,
      figures: [
        {
          name: 'capacity',
          what: 'May carry',
          kind: 'force',
          units: force,
          value: crib.value.capacity,
          rounding: 'down',
          digits: 3,
        },
        {
          name: 'slenderness',
          what: 'Height over base',
          kind: 'number',
          value: crib.value.slenderness,
          digits: 3,
          rounding: 'up',
        },
        { name: 'verdict', what: 'The crib', word: crib.value.isLowEnough ? 'is low enough' : 'is too tall' },
      ],
      notes: [supportCaution],
    }
  },
})

const plankLoad = makeCalculator({
  name: 'plank-load',
  what: 'Bending and sag of a plank on two bearers with a load in the middle.',
  formula: 'σ = 3 P l/(2 b t²); sag = P l³/(4 E b t³), at most l/60',
  validity: 'One plank, two bearers, load in the middle. Strength and stiffness by the grade stamp.',
  source: 'Simple beam, statics; l/60: 29 CFR 1926.451(f)(16), from memory',
  inputs: {
    load: { what: 'load in the middle', kind: 'force', unit: 'N', symbol: 'P' },
    span: { what: 'between the bearers', kind: 'length', unit: 'm', symbol: 'l' },
    width: { what: 'width of the plank as it is', kind: 'length', unit: 'mm', symbol: 'b' },
    thickness: { what: 'thickness as it is', kind: 'length', unit: 'mm', symbol: 't' },
    'bending-strength': { what: 'what the wood may be bent with', kind: 'pressure', unit: 'MPa' },
    stiffness: { what: 'modulus of elasticity', kind: 'pressure', unit: 'MPa', symbol: 'E' },
  },
  work: (given) => {
    const plank = plankBending({
      load: given.load,
      span: given.span,
      width: given.width,
      thickness: given.thickness,
      bendingStrength: given['bending-strength'],
      stiffness: given.stiffness,
    })
    if (!plank.ok) return plank
    const { stress, used, sag, isEnough } = plank.value
    return {
      ok: true,
      figures: [
        {
          name: 'stress',
          what: 'Bending stress',
          kind: 'pressure',
          units: ['MPa', 'psi'],
          value: stress,
          rounding: 'up',
        },
        { name: 'used', what: 'Used of its strength', kind: 'ratio', units: ['%'], value: used, rounding: 'up' },
        { name: 'sag', what: 'Sag', kind: 'length', units: ['mm', 'in'], value: sag, rounding: 'up' },
        { name: 'verdict', what: 'The plank', word: isEnough ? 'is enough' : 'is not enough' },
      ],
      notes: [supportCaution],
    }
  },
})

const propLoad = makeCalculator({
  name: 'prop-load',
  what: 'What an upright tube may carry before it buckles or is crushed.',
  formula: 'the smaller of π² E I/l² and f A, over the safety factor',
  validity: 'Straight round tube, plumb, loaded in its axis. The maker’s rating comes first.',
  source: 'L. Euler, pinned column; textbook of strength of materials',
  inputs: {
    outside: { what: 'outside diameter', kind: 'length', unit: 'mm', symbol: 'D' },
    inside: {
      what: 'inside diameter, 0 for a solid bar',
      kind: 'length',
      unit: 'mm',
      symbol: 'd',
      sign: 'not-negative',
    },
    length: { what: 'length', kind: 'length', unit: 'm', symbol: 'l' },
    stiffness: { what: 'modulus of elasticity', kind: 'pressure', unit: 'MPa', symbol: 'E' },
    strength: { what: 'yield strength', kind: 'pressure', unit: 'MPa', symbol: 'f' },
    'safety-factor': { what: 'safety factor, 2 or more', kind: 'number' },
  },
  work: (given) => {
    const prop = propCapacity({
      outside: given.outside,
      inside: given.inside,
      length: given.length,
      stiffness: given.stiffness,
      strength: given.strength,
      safetyFactor: given['safety-factor'],
    })
    if (!prop.ok) return prop
    return {
      ok: true,
      figures: [
        {
          name: 'capacity',
          what: 'May carry',
          kind: 'force',
          units: force,
          value: prop.value.capacity,
          isRounded: true,
          rounding: 'down',
          digits: 3,
        },
        { name: 'fails', what: 'It would fail by', word: prop.value.fails },
      ],
      notes: [supportCaution],
    }
  },
})

export const supportCalculators: readonly Calculator[] = [standLoads, cribLoad, plankLoad, propLoad]
