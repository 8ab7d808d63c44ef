import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { refuse } from '../answer.ts'
import { pi, squared } from '../binary.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'

/** Pressure, areas and forces; coherent units, exact but for π (40 digits). Friction and back pressure are left out. */

const pressureUnits = ['kPa', 'psi'] as const
const forceUnits = ['N', 'lbf'] as const
const pascalSource = 'Pascal’s law; US Navy, NAVEDTRA 14105, Fluid Power, chapter 2 (from memory)'

/** F = p · A */
export function pressureForce(pressure: Rational, area: Rational): Rational {
  return multiply(pressure, area)
}

/** A = π · d² / 4 */
export function boreArea(bore: Rational): Rational {
  return divide(multiply(pi, squared(bore)), rational(4))
}

export const pressureForceCalculator = makeCalculator({
  name: 'pressure-force',
  what: 'Force of a pressure on an area.',
  formula: 'F = p · A',
  validity: 'Gauge pressure against the air around.',
  source: pascalSource,
  inputs: {
    pressure: { what: 'gauge pressure', kind: 'pressure', unit: 'kPa', symbol: 'p' },
    area: { what: 'area', kind: 'area', unit: 'cm²', symbol: 'A', optional: true },
    bore: { what: 'bore, in place of the area', kind: 'length', unit: 'mm', symbol: 'd', optional: true },
  },
  work: ({ pressure, area, bore }) => {
    const onto = area ?? (bore === null ? null : boreArea(bore))
    if (onto === null || (area !== null && bore !== null))
      return refuse('area', 'The area is not clear.', 'Give area or bore, and not both.')
    const rounded = area === null ? { isRounded: true as const } : {}
    const value = pressureForce(pressure, onto)
    return {
      ok: true,
      figures: [{ name: 'force', what: 'force', kind: 'force', units: forceUnits, value, ...rounded }],
    }
  },
})

export const hydraulicPress = makeCalculator({
  name: 'hydraulic-press',
  what: 'Two pistons on one liquid: the force, area or pressure that is missing.',
  formula: 'p = F₁ / A₁ = F₂ / A₂; with bores A = π · d² / 4, so that F₂ = F₁ · (d₂ / d₁)²',
  validity: 'Liquid at rest, no friction. Forces go with the square of the bores, not with the bores.',
  source: pascalSource,
  inputs: {
    'force-one': { what: 'force on the first piston', kind: 'force', unit: 'N', symbol: 'F₁', optional: true },
    'area-one': { what: 'area of the first piston', kind: 'area', unit: 'cm²', symbol: 'A₁', optional: true },
    'bore-one': {
      what: 'bore of the first piston, in place of its area',
      kind: 'length',
      unit: 'mm',
      symbol: 'd₁',
      optional: true,
    },
    'force-two': { what: 'force on the second piston', kind: 'force', unit: 'N', symbol: 'F₂', optional: true },
    'area-two': { what: 'area of the second piston', kind: 'area', unit: 'cm²', symbol: 'A₂', optional: true },
    'bore-two': {
      what: 'bore of the second piston, in place of its area',
      kind: 'length',
      unit: 'mm',
      symbol: 'd₂',
      optional: true,
    },
  },
  work: (given) => {
    const one = pistonOf(given['force-one'], given['area-one'], given['bore-one'])
    const two = pistonOf(given['force-two'], given['area-two'], given['bore-two'])
    if (!one || !two) return refuse('area-one', 'A piston has both an area and a bore.', 'Give one of them.')
    const known =
      one.force !== null && one.measure !== null ? one : two.force !== null && two.measure !== null ? two : null
    if (!known?.force || !known.measure)
      return refuse('force-one', 'The pressure is not known.', 'Give force and area (or bore) of one piston.')
    const other = known === one ? two : one
    const figures: Figure[] = [
      {
        name: 'pressure',
        what: 'pressure',
        kind: 'pressure',
        units: pressureUnits,
        value: divide(known.force, known.isBore ? multiply(quarterPi, known.measure) : known.measure),
        ...(known.isBore ? { isRounded: true } : {}),
      },
    ]
    const number = known === one ? 'two' : 'one'
    if (other.force !== null && other.measure !== null)
      return refuse(`force-${number}`, 'Nothing is missing.', 'Leave out what is to be found.')
    if (other.measure !== null) {
      const isExact = known.isBore === other.isBore
      const ratio = divide(inSame(other, isExact), inSame(known, isExact))
      const value = multiply(known.force, ratio)
      figures.push({
        name: `force-${number}`,
        what: `force on piston ${number}`,
        kind: 'force',
        units: forceUnits,
        value,
        ...(isExact ? {} : { isRounded: true }),
      })
    } else if (other.force !== null) {
      const area = known.isBore ? multiply(quarterPi, known.measure) : known.measure
      const value = divide(multiply(area, other.force), known.force)
      figures.push({
        name: `area-${number}`,
        what: `area of piston ${number}`,
        kind: 'area',
        units: ['cm²', 'in²'],
        value,
        ...(known.isBore ? { isRounded: true } : {}),
      })
    }
    return { ok: true, figures }
  },
})

const quarterPi = divide(pi, rational(4))

interface Piston {
  readonly force: Rational | null
  /** The area, or the square of the bore. */
  readonly measure: Rational | null
  readonly isBore: boolean
}

function pistonOf(force: Rational | null, area: Rational | null, bore: Rational | null): Piston | null {
  if (area !== null && bore !== null) return null
  return { force, measure: area ?? (bore === null ? null : squared(bore)), isBore: bore !== null }
}

/** π drops out where both are bores. */
function inSame({ measure, isBore }: Piston, keepsSquare: boolean): Rational {
  const value = measure ?? rational(0)
  return isBore && !keepsSquare ? multiply(quarterPi, value) : value
}

export const pedalPress = makeCalculator({
  name: 'pedal-press',
  what: 'Force and stroke at the far piston of a pedal with a lever.',
  formula: 'F = f · area ratio; with a lever F = f · area ratio · lever; stroke out = stroke / area ratio',
  validity: 'Work is kept: what is won in force is lost in stroke. No friction.',
  source: pascalSource,
  inputs: {
    force: { what: 'force on the pedal', kind: 'force', unit: 'N', symbol: 'f' },
    'area-ratio': { what: 'area of the far piston over that of the near one', kind: 'number' },
    lever: { what: 'ratio of the lever', kind: 'number', optional: true },
    stroke: { what: 'stroke of the near piston', kind: 'length', unit: 'mm', optional: true },
  },
  work: ({ force, 'area-ratio': ratio, lever, stroke }) => {
    const value = multiply(force, ratio)
    const figures: Figure[] = [
      { name: 'force-out', what: 'force without the lever', kind: 'force', units: forceUnits, value },
    ]
    if (lever !== null)
      figures.push({
        name: 'force-with-lever',
        what: 'force with the lever',
        kind: 'force',
        units: forceUnits,
        value: multiply(value, lever),
      })
    if (stroke !== null)
      figures.push({
        name: 'stroke-out',
        what: 'stroke of the far piston',
        kind: 'length',
        units: ['mm', 'in'],
        value: divide(stroke, ratio),
      })
    return { ok: true, figures }
  },
})

export interface CylinderForces {
  readonly push: Rational
  readonly pull: Rational
  /** Pressure on the rod side while its port is blocked and the full pressure stands on the bore side. */
  readonly blocked: Rational
}

/** push = p · π/4 · D²; pull = p · π/4 · (D² − d²); blocked = p · D² / (D² − d²), which is exact. D above d. */
export function cylinderForces(pressure: Rational, bore: Rational, rod: Rational): CylinderForces {
  const ring = subtract(squared(bore), squared(rod))
  return {
    push: multiply(pressure, boreArea(bore)),
    pull: multiply(pressure, multiply(quarterPi, ring)),
    blocked: divide(multiply(pressure, squared(bore)), ring),
  }
}

export const cylinderForce = makeCalculator({
  name: 'cylinder-force',
  what: 'Push and pull of a cylinder, and the pressure a blocked rod side comes to.',
  formula: 'push = p · π/4 · D²; pull = p · π/4 · (D² − d²); blocked rod side: p · D² / (D² − d²)',
  validity: 'Double-acting cylinder with one rod, no friction or back pressure. The rod is thinner than the bore.',
  source: 'Pascal’s law on bore and ring area',
  inputs: {
    pressure: { what: 'gauge pressure', kind: 'pressure', unit: 'bar', symbol: 'p' },
    bore: { what: 'bore', kind: 'length', unit: 'mm', symbol: 'D' },
    rod: { what: 'rod diameter', kind: 'length', unit: 'mm', symbol: 'd' },
  },
  work: ({ pressure, bore, rod }) => {
    if (compare(rod, bore) >= 0)
      return refuse('rod', 'The rod is as thick as the bore, or thicker.', 'Look at bore and rod once more.')
    const { push, pull, blocked } = cylinderForces(pressure, bore, rod)
    const shared = { kind: 'force', units: ['kN', 'lbf'], isRounded: true } as const
    return {
      ok: true,
      figures: [
        { name: 'push', what: 'push (extending)', value: push, ...shared },
        { name: 'pull', what: 'pull (retracting)', value: pull, ...shared },
        {
          name: 'blocked-rod-side',
          what: 'pressure of a blocked rod side',
          kind: 'pressure',
          units: ['bar', 'psi'],
          value: blocked,
        },
      ],
      notes: [
        'Caution: a blocked rod side holds more than the supply pressure. Relieve both sides before a line is opened.',
      ],
    }
  },
})

/** The air around, as the trade rounds it: 14.7 psi. */
export const usualAtmosphere = multiply(rational(147n, 10n), unitBySymbol('psi')?.factor ?? rational(0))

export const absolutePressure = makeCalculator({
  name: 'absolute-pressure',
  what: 'Absolute pressure from a gauge reading.',
  formula: 'absolute = gauge + air; the air is 14.7 psi where nothing else is given',
  validity: 'Near sea level for 14.7 psi. Below a full vacuum is refused.',
  source: 'US Navy, NAVEDTRA 14105, Fluid Power, chapter 2 (14.7 psi; from memory)',
  inputs: {
    gauge: { what: 'gauge reading, negative for a vacuum', kind: 'pressure', unit: 'kPa', sign: 'any' },
    air: { what: 'pressure of the air around', kind: 'pressure', unit: 'kPa', optional: true },
  },
  work: ({ gauge, air }) => {
    const value = add(gauge, air ?? usualAtmosphere)
    if (value.numerator < 0n)
      return refuse('gauge', 'That is below a full vacuum.', 'Look at the reading and its unit once more.')
    return {
      ok: true,
      figures: [
        { name: 'absolute', what: 'absolute pressure', kind: 'pressure', units: pressureUnits, value, digits: 4 },
      ],
    }
  },
})

/** p = ρ · g · h with ρ = 1000 kg/m³ · relative density and g = 9.80665 m/s². */
export function columnPressure(height: Rational, relativeDensity: Rational): Rational {
  return multiply(multiply(rational(980665n, 100n), relativeDensity), height)
}

export const liquidColumn = makeCalculator({
  name: 'liquid-column',
  what: 'Pressure at the foot of a column of liquid.',
  formula: 'p = ρ · g · h; water 1000 kg/m³',
  validity: 'Liquid at rest. Water to 0.5 % from 0 to 30 °C; other liquids by their relative density.',
  source: 'Hydrostatics; conventional density of water as in NIST SP 811 (2008), B.8, foot of water',
  inputs: {
    height: { what: 'height of the liquid', kind: 'length', unit: 'm', symbol: 'h' },
    'relative-density': { what: 'density against water, 1 where not given', kind: 'number', optional: true },
  },
  work: ({ height, 'relative-density': density }) => ({
    ok: true,
    figures: [
      {
        name: 'pressure',
        what: 'pressure',
        kind: 'pressure',
        units: pressureUnits,
        value: columnPressure(height, density ?? rational(1)),
        digits: 4,
      },
    ],
  }),
})
