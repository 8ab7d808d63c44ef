import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, multiply, one, rational, subtract } from '../../quantities/rational.ts'
import { refuse } from '../answer.ts'
import { type Figure, makeCalculator } from '../make-calculator.ts'
import { boltStrength, gradeChoices } from './bolt-grades.ts'
import { isThreadGiven, stressArea, threadGeometry, threadInputs } from './thread-area.ts'
import { accuracyByMethod, scatterOf } from './tightening-tables.ts'

/** F = S · As */
export function loadOn(area: Rational, stress: Rational): Rational {
  return multiply(area, stress)
}

const strengthInputs = {
  ...threadInputs,
  'stress-area': {
    what: 'tensile stress area, where no thread is given',
    kind: 'area',
    unit: 'mm²',
    symbol: 'As',
    optional: true,
  },
  grade: { what: 'strength grade or class as on the head', kind: 'word', choices: gradeChoices, optional: true },
  'proof-strength': {
    what: 'proof strength, where no grade is given',
    kind: 'pressure',
    unit: 'MPa',
    symbol: 'Sp',
    optional: true,
  },
} as const

const gradeSource =
  'SAE J429, table 1 (grades 2, 5, 8 read in a table that reproduces it, others from memory); ISO 898-1:2013, table 3 (8.8, 10.9, 12.9 read in a table that reproduces it, others from memory)'

interface StrengthGiven {
  readonly thread: string | null
  readonly diameter: Rational | null
  readonly 'threads-per-inch': Rational | null
  readonly pitch: Rational | null
  readonly 'stress-area': Rational | null
  readonly grade: string | null
  readonly 'proof-strength': Rational | null
}

/** Area and proof strength, each from a table or as given; an error where they are not clear. */
function areaAndProof(given: StrengthGiven) {
  const { grade } = given
  const proofGiven = given['proof-strength']
  const areaGiven = given['stress-area']
  if (areaGiven !== null && isThreadGiven(given))
    return refuse('stress-area', 'Both a thread and a stress area are given.', 'Give one of them.')
  if (grade !== null && proofGiven !== null)
    return refuse('proof-strength', 'Both a grade and a proof strength are given.', 'Give one of them.')
  if (areaGiven !== null && proofGiven !== null)
    return { ok: true as const, area: areaGiven, proof: proofGiven, tensile: null, isRounded: false }
  const thread = areaGiven === null ? threadGeometry(given) : null
  if (thread && !thread.ok) return thread
  const area =
    areaGiven ?? (thread ? stressArea(thread.geometry.diameter, thread.geometry.pitch, thread.geometry.system) : null)
  if (area === null) return refuse('thread', 'No thread is given.', 'Give thread or stress-area.')
  const isRounded = areaGiven === null
  if (proofGiven !== null) return { ok: true as const, area, proof: proofGiven, tensile: null, isRounded }
  if (grade === null)
    return refuse(
      'grade',
      'Neither a grade nor a proof strength is given.',
      `Give grade (${gradeChoices.join(', ')}) or proof-strength.`,
    )
  if (!thread)
    return refuse(
      'thread',
      'A grade needs the thread: its strength steps with the diameter.',
      'Give thread instead of stress-area.',
    )
  const strength = boltStrength(grade, thread.geometry.diameter)
  if (!strength)
    return refuse('grade', `Grade ${grade} is not made in that diameter.`, 'Look at the marks on the head once more.')
  return { ok: true as const, area, proof: strength.proof, tensile: strength.tensile, isRounded }
}

const forceUnits = ['N', 'lbf'] as const

export const boltProofLoad = makeCalculator({
  name: 'bolt-proof-load',
  what: 'Proof load and least breaking load of a bolt by its grade.',
  formula: 'Fp = Sp · As; Fm = Rm · As',
  validity:
    'Steel bolts of SAE J429 to 1-1/2 in and ISO 898-1 to M39. The tables of the standards round some loads up by up to 0.4 %; this rounds none.',
  source: gradeSource,
  inputs: {
    ...strengthInputs,
    'tensile-strength': {
      what: 'tensile strength, where no grade is given',
      kind: 'pressure',
      unit: 'MPa',
      symbol: 'Rm',
      optional: true,
    },
  },
  work: (given) => {
    const tensile = given['tensile-strength']
    const area = given['stress-area']
    if (tensile !== null && given.grade === null && given['proof-strength'] === null && area !== null)
      return { ok: true, figures: [tensileFigure(loadOn(area, tensile), false)] }
    const found = areaAndProof(given)
    if (!found.ok) return found
    const strongest = tensile ?? found.tensile
    return {
      ok: true,
      figures: [
        {
          name: 'proof-load',
          what: 'proof load',
          kind: 'force',
          units: forceUnits,
          value: loadOn(found.area, found.proof),
          rounding: 'down',
          ...(found.isRounded ? { isRounded: true } : {}),
        },
        ...(strongest === null ? [] : [tensileFigure(loadOn(found.area, strongest), found.isRounded)]),
      ],
    }
  },
})

function tensileFigure(value: Rational, isRounded: boolean): Figure {
  return {
    name: 'tensile-load',
    what: 'least breaking load',
    kind: 'force',
    units: forceUnits,
    value,
    rounding: 'down',
    ...(isRounded ? { isRounded: true } : {}),
  }
}

/** F = f · Sp · As */
export function preload(area: Rational, proof: Rational, fraction: Rational): Rational {
  return multiply(fraction, loadOn(area, proof))
}

export const boltPreload = makeCalculator({
  name: 'bolt-preload',
  what: 'Clamp load of a bolt as a fraction of its proof load, with what the way of tightening may make of it.',
  formula: 'F = f · Sp · As; from F · (1 − γ) to F · (1 + γ)',
  validity:
    'f from above 0 to 1. For joints whose parts carry the load; a gasket or soft part needs its maker’s figure.',
  source: `${gradeSource}; usual f is 0.75 of proof for joints that are taken apart (common practice, as in tables of SAE J429 bolts)`,
  inputs: {
    ...strengthInputs,
    fraction: { what: 'part of the proof load, 0.75 or 75 %', kind: 'number', symbol: 'f' },
    scatter: {
      what: 'scatter of the preload, where tests of the fasteners tell it',
      kind: 'number',
      symbol: 'γ',
      optional: true,
      sign: 'not-negative',
    },
    method: {
      what: 'way of tightening, where no tests tell the scatter',
      kind: 'word',
      choices: Object.keys(accuracyByMethod),
      optional: true,
    },
    threads: {
      what: 'for a torque wrench: lubricated or dry',
      kind: 'word',
      choices: ['lubricated', 'dry'],
      optional: true,
    },
  },
  work: (given) => {
    if (compare(given.fraction, one) > 0)
      return refuse(
        'fraction',
        'The fraction is above 1.',
        'Give the part of the proof load as a number up to 1, usually 0.75.',
      )
    const { method, threads } = given
    if (given.scatter !== null && (method !== null || threads !== null))
      return refuse(
        'scatter',
        'Both the scatter and a way of tightening are given.',
        'Give scatter, or method and threads.',
      )
    const tabled = method === null && threads === null ? null : rational(scatterOf(method, threads), 100)
    const scatter = given.scatter ?? tabled
    if (scatter !== null && compare(scatter, one) >= 0)
      return refuse('scatter', 'The scatter is 1 or more.', 'Give it as a number below 1, such as 0.25.')
    const found = areaAndProof(given)
    if (!found.ok) return found
    const value = preload(found.area, found.proof, given.fraction)
    const rounded = found.isRounded ? { isRounded: true as const } : {}
    const shared = { kind: 'force', units: forceUnits, ...rounded } as const
    const figures: Figure[] = [{ name: 'preload', what: 'preload', value, ...shared }]
    if (scatter === null) return { ok: true, figures }
    const most = multiply(value, add(one, scatter))
    const isOver = compare(most, loadOn(found.area, found.proof)) > 0
    return {
      ok: true,
      figures: [
        ...figures,
        {
          name: 'preload-min',
          what: 'least preload',
          value: multiply(value, subtract(one, scatter)),
          rounding: 'down',
          ...shared,
        },
        { name: 'preload-max', what: 'largest preload', value: most, rounding: 'up', ...shared },
      ],
      notes: isOver
        ? ['Caution: the largest preload is above the proof load. Tighten to less, or in a way that scatters less.']
        : [],
    }
  },
})

const usualYieldPart = rational(65n, 100n)

export const yieldPreload = makeCalculator({
  name: 'yield-preload',
  what: 'Preload as a part of the yield strength, where a design counts from yield.',
  formula: 'F = f · Rp · As, f = 0.65 where not given',
  validity: 'f up to 1. Counted from proof load use bolt-preload.',
  source:
    'NASA TM-106943, Preloaded Joint Analysis Methodology for Space Flight Systems, 1995 (0.65 of yield, from memory)',
  inputs: {
    'yield-strength': { what: 'tensile yield strength', kind: 'pressure', unit: 'MPa', symbol: 'Rp' },
    'stress-area': { what: 'tensile stress area', kind: 'area', unit: 'mm²', symbol: 'As' },
    fraction: { what: 'part of the yield strength', kind: 'number', symbol: 'f', optional: true },
  },
  work: ({ 'yield-strength': strength, 'stress-area': area, fraction }) => {
    const part = fraction ?? usualYieldPart
    if (compare(part, one) > 0)
      return refuse('fraction', 'The fraction is above 1.', 'Give a number up to 1, usually 0.65.')
    return {
      ok: true,
      figures: [
        { name: 'stress', what: 'stress', kind: 'pressure', units: ['MPa', 'psi'], value: multiply(part, strength) },
        {
          name: 'preload',
          what: 'preload',
          kind: 'force',
          units: forceUnits,
          value: preload(area, strength, part),
          digits: 4,
        },
      ],
    }
  },
})
