import type { CaseMapping } from '../mapping.ts'

const thread = { d: 'diameter', threads: 'threads-per-inch', P: 'pitch', thread: 'thread' } as const
const tightening = { T: 'torque', K: 'nut-factor', D: 'diameter' } as const

export const fasteners: readonly CaseMapping[] = [
  { calculator: 'thread-stress-area', inputs: thread, expected: { As: 'stress-area' } },
  {
    calculator: 'bolt-proof-load',
    inputs: { ...thread, As: 'stress-area', Sp: 'proof-strength', Rm: 'tensile-strength', grade: 'grade' },
    expected: { Fp: 'proof-load', Fm: 'tensile-load' },
  },
  {
    calculator: 'bolt-preload',
    inputs: { ...thread, proof: 'proof-strength', As: 'stress-area', fraction: 'fraction' },
    expected: { F: 'preload' },
  },
  { calculator: 'bolt-torque', inputs: { ...tightening, F: 'preload' }, expected: { T: 'torque' } },
  {
    calculator: 'nut-factor-test',
    inputs: { T: 'torque', D: 'diameter', preloads: 'preloads', s: 'deviations' },
    expected: {
      Pnom: 'nominal-preload',
      K: 'nut-factor',
      gamma_max: 'scatter-above',
      gamma_min: 'scatter-below',
      sigma: 'standard-deviation',
      gamma: 'scatter',
    },
  },
  {
    calculator: 'bolt-tension',
    inputs: { T: 'torque', Tmax: 'torque', K: 'nut-factor', D: 'diameter', gamma: 'scatter' },
    expected: { P: 'preload-max' },
  },
  { calculator: 'bolt-tension', inputs: tightening, expected: { F: 'preload', P: 'preload' } },
  {
    calculator: 'effective-torque',
    inputs: {
      T: 'torque',
      tol: 'tolerance',
      above_running: 'counted',
      Tbr_min: 'breakaway-min',
      TL_max: 'locking-max',
    },
    words: { true: 'above running torque', false: 'total' },
    expected: { Tmax: 'torque-max', Tmin: 'torque-min' },
  },
  {
    calculator: 'preload-scatter',
    inputs: { lubricated: 'threads', method: 'method' },
    words: { true: 'lubricated', false: 'dry', 'strain gage': 'strain gauge' },
    expected: { gamma: 'scatter', accuracy: ['accuracy', ['accuracy-at-best', 'accuracy']] },
  },
  {
    calculator: 'bolt-heating',
    inputs: { ft: 'stress', E: 'modulus', e: 'expansion', t0: 'start' },
    expected: { t: 'temperature' },
  },
  {
    calculator: 'turn-of-nut',
    inputs: { ft: 'stress', LB: 'length', E: 'modulus', lead: 'lead' },
    expected: { theta: 'angle', elongation: 'elongation' },
  },
  {
    calculator: 'torque-from-friction',
    inputs: { P: 'preload', lead: 'lead', mu: 'friction', d: 'diameter' },
    expected: { T: 'torque', K_equivalent: 'nut-factor' },
  },
  {
    calculator: 'yield-preload',
    inputs: { Fty: 'yield-strength', At: 'stress-area' },
    expected: { coef: 'stress', P: 'preload' },
  },
  {
    calculator: 'bolt-torque-table',
    inputs: { size: 'size' },
    expected: {
      SAE2_dry: 'grade-two-dry',
      SAE2_lube: 'grade-two-lubricated',
      SAE5_dry: 'grade-five-dry',
      SAE5_lube: 'grade-five-lubricated',
    },
  },
  {
    calculator: 'torque-allowances',
    inputs: { T: 'torque' },
    expected: { max: 'torque-max', min: 'torque-min' },
  },
  { calculator: 'torque-allowances', inputs: { T: 'torque' }, expected: { max: 'slot-max' } },
  { calculator: 'torque-allowances', inputs: { T: 'torque' }, expected: { max_shear: 'shear-max' } },
  { calculator: 'torque-allowances', inputs: { T: 'torque', running: 'running' }, expected: { applied: 'applied' } },
  {
    calculator: 'shear-torque-check',
    inputs: { tension: 'tension', shear: 'shear' },
    expected: { ratios: 'ratio', ratio: 'ratio', within_60_percent: 'within' },
  },
  {
    calculator: 'wrench-graduation',
    inputs: { T: 'torque', graduation: 'graduation' },
    expected: { graduation_ok: 'fine-enough', accuracy: 'accuracy' },
  },
  { calculator: 'wrench-range', inputs: { full_scale: 'full-scale', T: 'torque' }, expected: { ok: 'in-range' } },
  {
    calculator: 'lock-nut-torque',
    inputs: { thread: 'thread' },
    expected: { lock_max: 'locking-max', breakaway_min: 'breakaway-min' },
  },
  {
    calculator: 'thread-protrusion',
    inputs: { threads: 'threads-per-inch', P: 'pitch' },
    expected: { protrusion: 'protrusion', two_pitches: 'protrusion' },
    // What the table prints where it is not two pitches: a misprint is no result.
    aside: ['table'],
  },
  {
    calculator: 'nut-torque-range',
    inputs: { thread: 'thread' },
    expected: {
      tension: ['tension-to', ['tension-from', 'tension-to']],
      shear: ['shear-to', ['shear-from', 'shear-to']],
      max_tension: 'tension-max',
      max_shear: 'shear-max',
    },
  },
  {
    calculator: 'wrench-extension',
    inputs: { T: 'torque', setting: 'setting', L: 'wrench-length', A: 'extension', angle: 'angle' },
    expected: { setting: 'setting', T: 'torque' },
  },
]
