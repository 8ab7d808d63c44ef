import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, negate, rational, subtract, zero } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { withoutSag } from './indicator.ts'

/**
 * Shaft alignment with dial indicators. Exact; one unit of length. Signs: a position is of the moved shaft against the fixed one, high is
 * positive; a face gap is positive where it is open at the top (the rear feet are low); distances to the feet count away from the coupling.
 * With 0 at the top and the stem pushed in positive, the bottom reading is twice the height of the moved shaft on a dial that the moved shaft
 * carries, and minus twice on one that the fixed shaft carries.
 */

const lengthUnits = ['mm', 'in'] as const
const half = rational(1n, 2n)

export interface Feet {
  readonly front: Rational
  readonly rear: Rational
}

/**
 * Rim and face: front = face/A · B + R/2 and rear = face/A · C + R/2 where the offset adds to the angle, − R/2 where it works against it.
 * A is the circle of the face dial, B and C the distances from the rim dial to the feet.
 */
export function rimAndFace(
  face: Rational,
  rim: Rational,
  circle: Rational,
  toFront: Rational,
  toRear: Rational,
  isAdded: boolean,
): Feet {
  const slope = divide(face, circle)
  const offset = multiply(isAdded ? rim : negate(rim), half)
  return { front: add(multiply(slope, toFront), offset), rear: add(multiply(slope, toRear), offset) }
}

function footFigures({ front, rear }: Feet): readonly Figure[] {
  const shared = { kind: 'length', units: lengthUnits, digits: 3 } as const
  return [
    { name: 'front', what: 'front feet', value: front, ...shared },
    { name: 'rear', what: 'rear feet', value: rear, ...shared },
  ]
}

const footNote =
  'Positive: put in that much shim. Negative: take it out. Check for soft feet first, and turn both shafts together.'

export const rimAndFaceCalculator = makeCalculator({
  name: 'rim-and-face',
  what: 'Shims under the feet of the moved machine from a rim and a face reading.',
  formula: 'front = face/A · B ± rim/2; rear = face/A · C ± rim/2',
  validity:
    'Face positive where open at the top, rim positive where the moved machine is high: then the offset is subtracted; added where it is low. Readings corrected for sag. B and C from the rim dial.',
  source: 'Rim-and-face method of the trade; no published worked example with all inputs was found',
  inputs: {
    face: {
      what: 'difference of the gap, open at the top positive',
      kind: 'length',
      unit: 'mm',
      symbol: 'face',
      sign: 'any',
    },
    rim: {
      what: 'full rim swing (TIR), moved machine high positive',
      kind: 'length',
      unit: 'mm',
      symbol: 'rim',
      sign: 'any',
    },
    circle: { what: 'diameter on which the face dial runs', kind: 'length', unit: 'mm', symbol: 'A' },
    'to-front': { what: 'from the rim dial to the front feet', kind: 'length', unit: 'mm', symbol: 'B' },
    'to-rear': { what: 'from the rim dial to the rear feet', kind: 'length', unit: 'mm', symbol: 'C' },
    offset: {
      what: 'whether the offset is added or subtracted',
      kind: 'word',
      choices: ['offset subtracted', 'offset added'],
      optional: true,
    },
  },
  work: ({ face, rim, circle, 'to-front': toFront, 'to-rear': toRear, offset }) => {
    if (compare(toRear, toFront) <= 0)
      return refuse('to-rear', 'The rear feet are nearer than the front feet.', 'Measure both from the rim dial.')
    const feet = rimAndFace(face, rim, circle, toFront, toRear, offset === 'offset added')
    return { ok: true, figures: footFigures(feet), notes: [footNote] }
  },
})

export interface Line {
  readonly slope: Rational
  readonly front: Rational
  readonly rear: Rational
}

/** The moved shaft through its offsets in two planes, carried on to the feet; the feet counted from the first plane. */
export function lineThroughPlanes(
  first: Rational,
  second: Rational,
  apart: Rational,
  toFront: Rational,
  toRear: Rational,
): Line {
  const slope = divide(subtract(second, first), apart)
  return { slope, front: add(first, multiply(slope, toFront)), rear: add(first, multiply(slope, toRear)) }
}

export const twoPlaneOffsets = makeCalculator({
  name: 'two-plane-alignment',
  what: 'Position of the feet of the moved machine from its offset in two planes.',
  formula: 'slope = (o₂ − o₁) / gap; foot = o₁ + slope · distance',
  validity:
    'Offsets of the moved shaft against the fixed one, high positive. Distances to the feet from the first plane.',
  source: 'Rise over run; reverse-dial method of the trade',
  inputs: {
    'offset-one': { what: 'offset in the first plane', kind: 'length', unit: 'mm', symbol: 'o₁', sign: 'any' },
    'offset-two': { what: 'offset in the second plane', kind: 'length', unit: 'mm', symbol: 'o₂', sign: 'any' },
    gap: { what: 'distance between the planes', kind: 'length', unit: 'mm' },
    'to-front': { what: 'from the first plane to the front feet', kind: 'length', unit: 'mm' },
    'to-rear': { what: 'from the first plane to the rear feet', kind: 'length', unit: 'mm' },
  },
  work: (given) => {
    const line = lineThroughPlanes(
      given['offset-one'],
      given['offset-two'],
      given.gap,
      given['to-front'],
      given['to-rear'],
    )
    return {
      ok: true,
      figures: [{ name: 'slope', what: 'slope', kind: 'number', value: line.slope, digits: 4 }, ...footFigures(line)],
      notes: ['Positive: the feet stand high by that much; take out as much shim.'],
    }
  },
})

export interface ReverseDials {
  readonly slope: Rational
  /** Offset of the moved shaft in the plane of the dial on the fixed coupling half. */
  readonly offset: Rational
  readonly front: Rational
  readonly rear: Rational
}

/**
 * Reverse dials, vertical, 0 at the top, corrected for sag: the bottom reading is +2 × the height of the moved shaft on the dial that runs on
 * the fixed half (the moved shaft carries it), and −2 × on the one that runs on the moved half. Feet counted from the plane of the first.
 */
export function reverseDials(
  onFixed: Rational,
  onMoved: Rational,
  apart: Rational,
  toFront: Rational,
  toRear: Rational,
): ReverseDials {
  const first = multiply(onFixed, half)
  const second = negate(multiply(onMoved, half))
  return { offset: first, ...lineThroughPlanes(first, second, apart, toFront, toRear) }
}

export const reverseDialCalculator = makeCalculator({
  name: 'reverse-dial',
  what: 'Shim moves of the moved machine from reverse-dial readings, with sag and thermal targets.',
  formula:
    'corrected = reading + |sag|; offset on the fixed half = +reading/2, on the moved half = −reading/2; foot = offset + slope · distance; move = target − foot',
  validity:
    'Vertical readings at the bottom, dials set to 0 at the top, the stem pushed in reads positive. Each dial sits on one shaft and runs on the rim of the other. Targets: where the feet shall stand cold, high positive.',
  source: 'Reverse-dial method of the trade (common practice); sag by rolling the bar on a stiff pipe',
  inputs: {
    'on-fixed': {
      what: 'bottom reading of the dial that runs on the fixed half',
      kind: 'length',
      unit: 'mm',
      sign: 'any',
    },
    'on-moved': {
      what: 'bottom reading of the dial that runs on the moved half',
      kind: 'length',
      unit: 'mm',
      sign: 'any',
    },
    sag: {
      what: 'sag of the bar as read on a pipe, bottom reading',
      kind: 'length',
      unit: 'mm',
      sign: 'any',
      optional: true,
    },
    apart: { what: 'distance between the two dials', kind: 'length', unit: 'mm' },
    'to-front': { what: 'from the dial on the fixed half to the front feet', kind: 'length', unit: 'mm' },
    'to-rear': { what: 'from the dial on the fixed half to the rear feet', kind: 'length', unit: 'mm' },
    'target-front': {
      what: 'where the front feet shall stand',
      kind: 'length',
      unit: 'mm',
      sign: 'any',
      optional: true,
    },
    'target-rear': { what: 'where the rear feet shall stand', kind: 'length', unit: 'mm', sign: 'any', optional: true },
  },
  work: (given) => {
    const { sag, apart } = given
    if (compare(given['to-rear'], given['to-front']) <= 0)
      return refuse(
        'to-rear',
        'The rear feet are nearer than the front feet.',
        'Measure both from the dial on the fixed half.',
      )
    const droop = sag ?? zero
    const found = reverseDials(
      withoutSag(given['on-fixed'], droop),
      withoutSag(given['on-moved'], droop),
      apart,
      given['to-front'],
      given['to-rear'],
    )
    const shared = { kind: 'length', units: lengthUnits, digits: 3 } as const
    return {
      ok: true,
      figures: [
        { name: 'offset', what: 'offset in the plane of the dial on the fixed half', value: found.offset, ...shared },
        { name: 'slope', what: 'slope', kind: 'number', value: found.slope, digits: 3 },
        { name: 'front', what: 'front feet stand', value: found.front, ...shared },
        { name: 'rear', what: 'rear feet stand', value: found.rear, ...shared },
        {
          name: 'front-move',
          what: 'shim at the front feet',
          value: subtract(given['target-front'] ?? zero, found.front),
          ...shared,
        },
        {
          name: 'rear-move',
          what: 'shim at the rear feet',
          value: subtract(given['target-rear'] ?? zero, found.rear),
          ...shared,
        },
      ],
      notes: [footNote],
    }
  },
})
