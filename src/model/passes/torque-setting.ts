import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, isZero, zero } from '../../quantities/rational.ts'
import { lengthening, wrenchSetting } from '../../trade/fasteners/wrench.ts'
import type { Torque } from '../readings.ts'
import { endsOfTorque, factOf, quantityFrom, quantityOf, type TorqueEnds, type TorqueWorking } from './torque-facts.ts'
import { shown, shownNumber, workedFigure } from './worked-figures.ts'

/** What lengthens the wrench. Metres; the angle in turns from straight ahead. */
export interface Extension {
  readonly added: Rational
  readonly length: Rational
  readonly angle: Rational
  /** A · cos θ */
  readonly counts: Rational
}

/** Null where there is none, or its wrench length is missing and counts. */
export function extensionOf(torque: Torque): Extension | null {
  const added = quantityOf(torque, 'extension', 'length')
  const angle = quantityOf(torque, 'extension angle', 'angle') ?? zero
  if (added === null) return null
  const counts = lengthening(added, angle)
  // At a right angle the wrench is as long as before, whatever its length.
  const length = quantityOf(torque, 'wrench length', 'length') ?? (isZero(counts) ? added : null)
  if (length === null || length.numerator <= 0n || compare(add(length, counts), zero) <= 0) return null
  return { added, length, angle, counts }
}

/** Torque on the wrench for a torque at the bolt: the running torque comes on top, the extension comes off. */
export function settingFor(value: Rational, running: Rational | null, extension: Extension | null): Rational {
  const atBolt = running === null ? value : add(value, running)
  return extension === null ? atBolt : wrenchSetting(atBolt, extension.length, extension.counts)
}

/** The running torque where it is a figure, not a reading; N·m. */
export function runningTorqueOf(torque: Torque): Rational | null {
  const typed = factOf(torque, 'added to')
  return typed === null ? null : quantityFrom(typed, 'torque')
}

/** What the wrench is set to, where that is not the torque of the joint. */
export function settingOf(torque: Torque): TorqueWorking | null {
  const ends = endsOfTorque(torque)
  const addedTo = factOf(torque, 'added to')
  const extension = extensionOf(torque)
  if (ends === null || (addedTo === null && extension === null)) return null
  const running = runningTorqueOf(torque)
  if (addedTo !== null && running === null) return atTheBench(torque, ends, addedTo, extension)
  // Inward, so that what is set is never outside the band of the joint.
  const low = settingFor(ends.low, running, extension)
  const high = settingFor(ends.high, running, extension)
  const band = bandText(low, high, ends.unit)
  return {
    says: `Set the wrench to ${band}: ${reasonsOf(addedTo, extension)}.`,
    figures: [
      workedFigure({
        name: 'setting-low',
        kind: 'torque',
        unit: ends.unit,
        value: low,
        digits: 4,
        rounding: 'up',
        ...rounded(extension),
      }),
      workedFigure({
        name: 'setting-high',
        kind: 'torque',
        unit: ends.unit,
        value: high,
        digits: 4,
        rounding: 'down',
        ...rounded(extension),
      }),
    ],
    ...shared(extension, addedTo),
    lines: [
      ...lengthLines(extension),
      settingLine('Lower end', ends.low, ends.unit, running, extension),
      settingLine('Upper end', ends.high, ends.unit, running, extension),
    ],
  }
}

/** The running torque is read on the spot: the sum is left to the bench. */
function atTheBench(torque: Torque, ends: TorqueEnds, addedTo: string, extension: Extension | null): TorqueWorking {
  const name = addedTo.replaceAll('-', ' ')
  const band = torque.limit.text
  const factor = extension === null ? '' : `, times ${shownNumber(partOf(extension), 4)} for the extension`
  return {
    says: `Add what was read as ${name}: turn until ${name} and ${band} together are reached${factor}.`,
    figures: [],
    ...shared(extension, addedTo),
    lines: [
      ...lengthLines(extension),
      `Lower end: (${name} + ${shown(ends.low, ends.unit, 4)})${factor}`,
      `Upper end: (${name} + ${shown(ends.high, ends.unit, 4)})${factor}`,
    ],
  }
}

function shared(extension: Extension | null, addedTo: string | null) {
  const sources = [
    ...(extension === null
      ? []
      : [
          'TM 1-1500-204-23-9, 8-5, fig. 8-16; FAA AC 43.13-1B, fig. 7-2; at an angle the projected length (common practice)',
        ]),
    ...(addedTo === null ? [] : ['running torque comes on top: MSFC-STD-486B, Nov 1992, A3.8']),
  ]
  const torque = addedTo === null ? 'T' : '(T + running torque)'
  return {
    formula: extension === null ? `setting = ${torque.slice(1, -1)}` : `S = ${torque} · L / (L + A · cos θ)`,
    source: sources.join('; '),
    caution:
      extension === null
        ? 'Read the running torque on the same fastener, while it turns and before it seats.'
        : 'Pull at the middle of the grip, square to the wrench, the extension as it was measured. A wrench whose setting does not follow its length needs its maker’s rule.',
  }
}

const LENGTH_UNIT = 'mm'

function lengthLines(extension: Extension | null): readonly string[] {
  if (extension === null) return []
  const { added, length, angle, counts } = extension
  return [
    `L = ${shown(length, LENGTH_UNIT, 4)}, A = ${shown(added, LENGTH_UNIT, 4)}, θ = ${shown(angle, '°')}`,
    `A · cos θ = ${shown(counts, LENGTH_UNIT, 4)}`,
  ]
}

function settingLine(
  name: string,
  value: Rational,
  unit: string,
  running: Rational | null,
  extension: Extension | null,
): string {
  const result = shown(settingFor(value, running, extension), unit, 4)
  const torque = shown(value, unit, 4)
  const atBolt = running === null ? torque : `(${torque} + ${shown(running, unit, 4)})`
  if (extension === null) return `${name}: ${atBolt.replace(/^\(|\)$/g, '')} = ${result}`
  const length = shown(extension.length, LENGTH_UNIT, 4)
  const whole = shown(add(extension.length, extension.counts), LENGTH_UNIT, 4)
  return `${name}: ${atBolt} × ${length} / ${whole} = ${result}`
}

function reasonsOf(addedTo: string | null, extension: Extension | null): string {
  return [
    ...(addedTo === null ? [] : [`the running torque of ${addedTo} is added`]),
    ...(extension === null ? [] : [extensionSays(extension)]),
  ].join(', ')
}

function extensionSays({ added, length, angle, counts }: Extension): string {
  const how = isZero(angle) ? 'straight ahead' : `at ${shown(angle, '°')}`
  return isZero(counts)
    ? `an extension at a right angle changes nothing`
    : `an extension of ${shown(added, LENGTH_UNIT, 4)} ${how} on a wrench of ${shown(length, LENGTH_UNIT, 4)}`
}

/** L / (L + A · cos θ) */
function partOf(extension: Extension): Rational {
  return settingFor({ numerator: 1n, denominator: 1n }, null, extension)
}

function bandText(low: Rational, high: Rational, unit: string): string {
  const from = shown(low, unit, 4, 'up')
  const to = shown(high, unit, 4, 'down')
  return compare(low, high) === 0 ? shown(low, unit, 4) : `${from.replace(/ [^ ]+$/, '')} to ${to}`
}

/** A cosine stands behind it, but at right angles and straight ahead. */
function rounded(extension: Extension | null): { readonly isRounded?: true } {
  if (extension === null) return {}
  const quarters = { numerator: extension.angle.numerator * 4n, denominator: extension.angle.denominator }
  return quarters.numerator % quarters.denominator === 0n ? {} : { isRounded: true }
}
