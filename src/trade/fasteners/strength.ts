import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, rational, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { pi } from '../binary.ts'
import { makeCalculator } from '../make-calculator.ts'
import { circleArea, isThreadGiven, stressArea, threadGeometry, threadInputs } from './thread-area.ts'

/**
 * Shear areas of engaged 60° threads (FED-STD-H28/2B, section on strength; from memory), with basic diameters in place of limits:
 * internal π · d · Le/P · (P/2 + (d − d₂)/√3), at the major diameter of the screw; external π · D₁ · Le/P · (P/2 + (d₂ − D₁)/√3), at the minor
 * diameter of the nut. Basic diameters: d₂ = d − 0.649519 P, D₁ = d − 1.082532 P. Real threads have clearance: 10 to 20 % less.
 */
export function threadShearAreas(
  diameter: Rational,
  pitch: Rational,
  engaged: Rational,
): { readonly screw: Rational; readonly nut: Rational } {
  const pitchDiameter = subtract(diameter, multiply(rational(649519n, 1_000_000n), pitch))
  const minor = subtract(diameter, multiply(rational(1082532n, 1_000_000n), pitch))
  const turns = divide(engaged, pitch)
  const half = divide(pitch, rational(2))
  const width = (across: Rational) => add(half, multiply(inverseRootThree, across))
  return {
    screw: multiply(multiply(multiply(pi, minor), turns), width(subtract(pitchDiameter, minor))),
    nut: multiply(multiply(multiply(pi, diameter), turns), width(subtract(diameter, pitchDiameter))),
  }
}

/** 1/√3 */
const inverseRootThree = rational(57735027n, 100_000_000n)

/** Shear strength of steel as part of its tensile strength (common practice; MIL-HDBK-5 lists 0.58 to 0.62 for bolt steels, from memory). */
const shearPart = rational(6n, 10n)

export const threadStripping = makeCalculator({
  name: 'thread-stripping',
  what: 'Load that strips the weaker of two engaged threads, and whether the bolt breaks first.',
  formula: 'F = 0.6 · Rm · shear area; bolt: F = Rm · As',
  validity:
    'Steel and light metal, 60° threads, no more engagement than twice the diameter. Basic sizes: take 20 % off for real clearance and bell-mouthing.',
  source: 'FED-STD-H28/2B (shear areas, from memory); shear strength of 0.6 of the tensile one: common practice',
  inputs: {
    ...threadInputs,
    engagement: { what: 'length of full thread that is engaged', kind: 'length', unit: 'mm', symbol: 'Le' },
    'screw-strength': { what: 'tensile strength of the screw', kind: 'pressure', unit: 'MPa', symbol: 'Rm,s' },
    'nut-strength': {
      what: 'tensile strength of the nut or the tapped part',
      kind: 'pressure',
      unit: 'MPa',
      symbol: 'Rm,n',
    },
  },
  work: (given) => {
    const thread = threadGeometry(given)
    if (!thread.ok) return thread
    const { diameter, pitch, system } = thread.geometry
    const { engagement } = given
    if (compare(engagement, multiply(rational(2), diameter)) > 0)
      return refuse(
        'engagement',
        'The engagement is more than twice the diameter.',
        'Count at most twice the diameter: threads further on carry little.',
      )
    const areas = threadShearAreas(diameter, pitch, engagement)
    const screw = multiply(multiply(shearPart, given['screw-strength']), areas.screw)
    const nut = multiply(multiply(shearPart, given['nut-strength']), areas.nut)
    const bolt = multiply(given['screw-strength'], stressArea(diameter, pitch, system))
    const isNutWeaker = compare(nut, screw) < 0
    const weaker = isNutWeaker ? nut : screw
    const shared = { kind: 'force', units: ['N', 'lbf'], isRounded: true, digits: 3, rounding: 'down' } as const
    return {
      ok: true,
      figures: [
        { name: 'strips-at', what: 'load that strips the weaker thread', value: weaker, ...shared },
        { name: 'weaker', what: 'weaker thread', word: isNutWeaker ? 'nut or tapped part' : 'screw' },
        { name: 'bolt-breaks-at', what: 'load that breaks the bolt', value: bolt, ...shared },
        { name: 'breaks-first', what: 'what goes first', word: compare(bolt, weaker) < 0 ? 'bolt' : 'thread' },
      ],
    }
  },
})

/** F = part · Rm · A · planes */
export function shearLoad(strength: Rational, area: Rational, planes: number): Rational {
  return multiply(multiply(shearPart, strength), multiply(area, rational(planes)))
}

export const boltShear = makeCalculator({
  name: 'bolt-shear',
  what: 'Load that shears a bolt, through its shank or its threads.',
  formula: 'F = 0.6 · Rm · A · planes; A = π d²/4 of the shank, or As where the threads are in the shear plane',
  validity: 'Steel bolts, no bending and no tension besides. Breaking load: the safety factor is the designer’s.',
  source: 'Common practice (0.6 of the tensile strength), no published source',
  inputs: {
    ...threadInputs,
    strength: { what: 'tensile strength of the bolt', kind: 'pressure', unit: 'MPa', symbol: 'Rm' },
    plane: { what: 'what stands in the shear plane', kind: 'word', choices: ['shank', 'threads'] },
    cuts: { what: 'single or double shear', kind: 'word', choices: ['single', 'double'] },
  },
  work: (given) => {
    if (!isThreadGiven(given)) return refuse('thread', 'No thread is given.', 'Give thread, such as 1/2-13 or M20.')
    const thread = threadGeometry(given)
    if (!thread.ok) return thread
    const { diameter, pitch, system } = thread.geometry
    const area = given.plane === 'shank' ? circleArea(diameter) : stressArea(diameter, pitch, system)
    const value = shearLoad(given.strength, area, given.cuts === 'double' ? 2 : 1)
    return {
      ok: true,
      figures: [
        {
          name: 'shear-load',
          what: 'load that shears the bolt',
          kind: 'force',
          units: ['N', 'lbf'],
          value,
          isRounded: true,
          digits: 3,
          rounding: 'down',
        },
      ],
    }
  },
})
