import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, divide, multiply, rational } from '../../quantities/rational.ts'
import {
  frictionOf,
  type Joint,
  jointOf,
  leastOf,
  mostOf,
  preloadAt,
  readFastener,
  shareAt,
} from '../../trade/fasteners/joint.ts'
import type { Torque } from '../readings.ts'
import { endsOfTorque, factOf, type TorqueEnds, type TorqueWorking } from './torque-facts.ts'
import { shown, shownBand, shownNumber, workedFigure } from './worked-figures.ts'

const SOURCE =
  'T = K · D · F: NASA-STD-5020B, 6 Aug 2021, appendix A.2; scatter there, 4.3.3. Proof load: SAE J429, table 1, and ISO 898-1:2013, table 3 (partly from memory). K and the usual 75 % of proof load: common practice'

/** Units of the work by the hand of whoever typed the torque. */
const units = {
  metric: { length: 'm', force: 'N', clamp: 'kN', stress: 'MPa', area: 'mm²', torque: 'N·m' },
  inch: { length: 'in', force: 'lbf', clamp: 'lbf', stress: 'ksi', area: 'in²', torque: 'lbf·in' },
} as const

/** What the torque makes of the fastener. None where an angle follows: then the angle makes the preload. */
export function preloadOf(torque: Torque): TorqueWorking | null {
  const ends = endsOfTorque(torque)
  const joint = jointOfTorque(torque)
  if (ends === null || joint === null) return null
  const { fastener } = joint
  const { clamp } = units[fastener.size.system]
  const low = preloadAt(joint, ends.low)
  const high = preloadAt(joint, ends.high)
  const all = fastener.count === null ? null : multiply(preloadAt(joint, ends.middle), rational(fastener.count))
  const allSay =
    all === null || fastener.count === 1 ? '' : `; all ${fastener.count} clamp with about ${shown(all, clamp)}`
  const figure = (name: string, value: Rational, rounding?: 'up' | 'down', digits = 3) =>
    workedFigure({
      name,
      kind: 'force',
      unit: clamp,
      value,
      digits,
      isRounded: true,
      ...(rounding ? { rounding } : {}),
    })
  const torqueFigure = (name: string, value: Rational) =>
    workedFigure({ name, kind: 'torque', unit: ends.unit, value, isRounded: true })
  const share = (name: string, value: Rational) =>
    workedFigure({ name, kind: 'ratio', unit: '%', value, isRounded: true, digits: 2 })
  return {
    says: `Each ${nameOf(joint)} is pulled with about ${shownBand(low, high, clamp)}, ${sharesOf(joint, ends)} of its proof load${allSay}.`,
    figures: [
      figure('proof-load', joint.proofLoad, 'down', 4),
      torqueFigure('torque-usual', joint.usualTorque),
      torqueFigure('torque-at-proof', joint.proofTorque),
      figure('preload-low', low),
      figure('preload-high', high),
      share('share-low', shareAt(joint, ends.low)),
      share('share-high', shareAt(joint, ends.high)),
      figure('preload-least', leastOf(joint, low), 'down'),
      figure('preload-most', mostOf(joint, high), 'up'),
      ...(all === null ? [] : [figure('clamp-in-all', all)]),
    ],
    formula: 'Fp = Sp · As; F = T / (K · D); F · (1 − γ) to F · (1 + γ); usual T = 0.75 · K · D · Fp',
    lines: linesOf(joint, ends, all),
    source: SOURCE,
    caution: cautionOf(joint, mostOf(joint, high)),
  }
}

/** The joint of a torque, as far as its text gives one. */
export function jointOfTorque(torque: Torque): Joint | null {
  if (factOf(torque, 'then angle') !== null) return null
  const fastener = torque.fastener === null ? null : readFastener(torque.fastener)
  const friction = frictionOf(torque.lubrication ?? '')
  return fastener && friction && jointOf(fastener, friction)
}

/** `M16×2 10.9`, `1/2-13 SAE 8`. */
function nameOf({ fastener }: Joint): string {
  return `${fastener.size.name} ${fastener.grade}`
}

function sharesOf(joint: Joint, { low, high }: TorqueEnds): string {
  return shownBand(shareAt(joint, low), shareAt(joint, high), '%', 2)
}

function linesOf(joint: Joint, ends: TorqueEnds, all: Rational | null): readonly string[] {
  const { fastener, friction, strength, area, proofLoad, usualTorque } = joint
  const { diameter } = fastener.size
  const { length, force, clamp, stress, area: areaUnit, torque } = units[fastener.size.system]
  const K = shownNumber(friction.factor)
  const D = shown(diameter, length, 4)
  const bolt = `(${K} × ${D})`
  const percent = shown(friction.scatter, '%')
  const pull = (name: string, value: Rational) =>
    `${name}: F = ${shown(value, torque, 4)} / ${bolt} = ${shown(preloadAt(joint, value), force)} = ${shown(shareAt(joint, value), '%', 2)} of Fp`
  const spread = (from: Rational, to: Rational) => shownBand(from, to, clamp)
  const low = preloadAt(joint, ends.low)
  const high = preloadAt(joint, ends.high)
  return [
    `${nameOf(joint)}: stress area As = ${shown(area, areaUnit, 4)}, proof strength Sp = ${shown(strength.proof, stress, 4)}`,
    `Fp = ${shown(strength.proof, stress, 4)} × ${shown(area, areaUnit, 4)} = ${shown(proofLoad, clamp, 4, 'down')}`,
    `K = ${K} (nut factor, ${friction.row}), D = ${D}`,
    `Usual: T = 0.75 × ${K} × ${D} × ${shown(proofLoad, force, 4, 'down')} = ${shown(usualTorque, torque)}${torque === ends.unit ? '' : ` = ${shown(usualTorque, ends.unit)}`}`,
    ...(compare(low, high) === 0
      ? [pull('As written', ends.high)]
      : [pull('Lower end', ends.low), pull('Upper end', ends.high)]),
    `With a scatter of ± ${percent} by torque wrench: ${spread(leastOf(joint, low), mostOf(joint, high))}`,
    ...(all === null || fastener.count === null || fastener.count === 1
      ? []
      : [
          `All ${fastener.count}, at ${shown(ends.middle, ends.unit)}: ${fastener.count} × ${shown(divide(all, rational(fastener.count)), clamp)} = ${shown(all, clamp)}`,
        ]),
  ]
}

const ASK = 'The maker’s torque comes first; where it differs much, ask a qualified person'

function cautionOf({ proofLoad, friction }: Joint, most: Rational): string {
  const scatter = shown(friction.scatter, '%')
  const isOver = compare(most, proofLoad) > 0
  const over = isOver ? ' A slippery thread tightened to the upper end can go beyond its proof load.' : ''
  return `A torque makes a preload no surer than ± ${scatter}: K is a table’s, not measured on this thread.${over} ${ASK}.`
}
