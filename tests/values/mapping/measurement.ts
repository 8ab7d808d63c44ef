import { symbolOf } from '../case-units.ts'
import { exactOf } from '../compare.ts'
import type { CaseMapping } from '../mapping.ts'

const limits = { lower: 'lower', upper: 'upper', U: 'uncertainty', readings: 'reading', reading: 'reading' } as const

export const measurement: readonly CaseMapping[] = [
  {
    calculator: 'decision-rule',
    inputs: limits,
    expected: {
      decision: 'decision',
      acceptance: ['accept-to', ['accept-from', 'accept-to']],
      pass: 'within',
      acceptance_exists: 'acceptance-exists',
      supplier_conform: 'proves-conformity',
      customer_nonconform: 'proves-nonconformity',
    },
  },
  {
    calculator: 'accuracy-ratio',
    inputs: { tolerance_half: 'tolerance', ratio: 'ratio', tool: 'tolerance', standard: 'uncertainty' },
    expected: { U_max: 'uncertainty-max', ratio: 'ratio' },
  },
  {
    calculator: 'combined-uncertainty',
    inputs: { u: 'parts', uc: 'parts', k: 'factor', res: 'resolution', Ucal: 'calibration', s: 'repeatability' },
    expected: { uc: 'combined', U: 'expanded' },
  },
  { calculator: 'half-width-uncertainty', inputs: { a: 'half-width' }, expected: { u: 'standard' } },
  { calculator: 'relative-uncertainty', inputs: { u: 'uncertainty', x: 'value' }, expected: { percent: 'part' } },
  {
    calculator: 'micrometer-reading',
    inputs: {
      sleeve_tenths: 'numbered',
      tenths: 'numbered',
      sleeve_25: 'unnumbered',
      quarters: 'unnumbered',
      thimble: 'thimble',
      vernier: 'vernier',
    },
    expected: { reading: 'reading' },
  },
  { calculator: 'angular-shim', inputs: { D: 'circle', L: 'feet', M: 'reading' }, expected: { S: 'shim' } },
  {
    calculator: 'indicator-swing',
    inputs: { TIR: 'swing', limit_TIR: 'limit-swing' },
    expected: { offset: 'offset', ok: 'within' },
  },
  {
    // The note of the source calls the face positive where it is open at the bottom. Its numbers are those of a face open at the top, the
    // moved machine high and the offset subtracted: the numbers are kept, and our signs are those of the numbers.
    calculator: 'rim-and-face',
    inputs: { A: 'circle', B: 'to-front', C: 'to-rear', face: 'face', rim_TIR: 'rim', sign: 'offset' },
    expected: { front: 'front', rear: 'rear' },
  },
  {
    calculator: 'two-plane-alignment',
    inputs: { o1: 'offset-one', o2: 'offset-two', gap: 'gap', front: 'to-front', rear: 'to-rear' },
    expected: { slope: 'slope', front_offset: 'front', rear_offset: 'rear' },
  },
  {
    calculator: 'indicator-sag',
    inputs: { raw: 'reading', sag: 'sag' },
    expected: { corrected_both_add: 'corrected', corrected: 'corrected' },
  },
  {
    calculator: 'fit-clearance',
    inputs: { bore: 'bore', hole: 'bore', pin: 'shaft', journal: 'shaft' },
    expected: {
      min: 'clearance-min',
      max: 'clearance-max',
      extreme_min: 'clearance-min',
      extreme_max: 'clearance-max',
      clearance: 'clearance-min',
    },
    // What the source printed for graded parts, beside what their limits allow.
    aside: ['printed'],
  },
  {
    calculator: 'fit-clearance',
    inputs: { bore: 'bore', journal: 'shaft' },
    fixed: { published: 'engine oil clearance' },
    expected: { clearance: 'clearance-min', ok: 'within' },
  },
  {
    calculator: 'wear-limit-side',
    inputs: { spec: 'new', wear_limit: 'wear-limit' },
    fixed: { part: 'shaft' },
    expected: { limit_side_ok: 'right-side' },
  },
  {
    calculator: 'wear-state',
    inputs: { new: 'new', limit: 'wear-limit', readings: 'reading' },
    expected: { state: 'state' },
  },
  {
    calculator: 'shaft-bend',
    inputs: { TIR: 'swing' },
    expected: { bend: 'bend', service_ok: 'within-service', new_ok: 'within-new' },
  },
  {
    calculator: 'thrust-washer',
    inputs: { e: 'end-play', t: 'washer' },
    expected: { corrected: 'corrected', washer: 'choice' },
  },
  {
    calculator: 'thrust-washer-row',
    inputs: { corrected: 'corrected' },
    words: { true: 'yes', false: 'no', null: 'none' },
    expected: { row: 'row', gap: 'between-rows' },
  },
  {
    calculator: 'out-of-round',
    inputs: { top: 'top', bottom: 'bottom' },
    expected: { out_of_round: 'out-of-round', taper: 'taper' },
  },
  {
    // A difference of temperatures, and what comes out where it is taken for a temperature.
    inputs: ['dT'],
    expected: ['dT_K', 'wrong'],
    work: (inputs) => {
      const given = inputs.get('dT')
      const typed = exactOf(given?.value)
      const unit = given?.unit ?? ''
      const difference = symbolOf(unit, 'temperature-difference') ?? ''
      const point = symbolOf(unit) ?? ''
      return { dT_K: { exact: typed, unit: difference }, wrong: { exact: typed, unit: point } }
    },
  },
  {
    calculator: 'thermal-growth',
    inputs: { alpha: 'expansion', L: 'length', dT: 'difference', T: 'temperature' },
    expected: { growth: 'growth' },
  },
]
