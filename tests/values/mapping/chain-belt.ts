import type { CaseMapping } from '../mapping.ts'

export const chainBelt: readonly CaseMapping[] = [
  {
    calculator: 'leaf-chain-table',
    inputs: { pitch: 'pitch', pitches: 'pitches' },
    expected: {
      nominal: 'nominal',
      at_3_percent: 'limit-length',
      table_limit: 'table-limit',
      table_elongation: 'table-elongation',
    },
  },
  {
    calculator: 'chain-elongation',
    inputs: {
      pitch: 'pitch',
      pitches: 'pitches',
      pins: 'pins',
      measured: 'measured',
      limit: 'limit',
      L1: 'inside',
      L2: 'outside',
    },
    expected: {
      nominal: 'nominal',
      elongation: 'elongation',
      limit_length: 'limit-length',
      replace: 'replace',
      L: 'length',
    },
  },
  {
    calculator: 'chain-allowance',
    inputs: { percent: 'limit', length: 'length' },
    expected: { elongation: 'allowance' },
  },
  { calculator: 'chain-pitch', inputs: { chain: 'chain' }, expected: { pitch: 'pitch' } },
  {
    calculator: 'chain-wear-limit',
    inputs: { teeth: 'teeth', take_up: 'take-up' },
    words: { true: 'yes', false: 'no' },
    expected: { limit: 'limit' },
  },
  { calculator: 'chain-slack', inputs: { span: 'span' }, expected: { min: 'slack-min', max: 'slack-max' } },
  {
    calculator: 'chain-length',
    inputs: { p: 'pitch', N1: 'teeth-one', N2: 'teeth-two', centres: 'centres' },
    expected: { C: 'centre-pitches', L: 'pitches', L_even: 'links', length: 'length' },
  },
  { calculator: 'sprocket-diameter', inputs: { p: 'pitch', z: 'teeth' }, expected: { d: 'pitch-diameter' } },
  {
    calculator: 'belt-deflection',
    inputs: { span: 'span' },
    expected: { deflection: 'deflection', mm: 'deflection', fraction: 'deflection-fraction' },
  },
  {
    calculator: 'belt-deflection-force',
    inputs: { section: 'section' },
    expected: { normal: 'normal', at_150: 'raised' },
  },
  {
    calculator: 'belt-force-range',
    inputs: { deflection: 'deflection' },
    expected: { force: ['force-to', ['force-from', 'force-to']] },
  },
  {
    calculator: 'belt-tension',
    inputs: { belt: 'belt' },
    expected: { tension: 'tension', deflection: 'deflection' },
  },
  {
    calculator: 'published-limit',
    inputs: { deflection: 'reading' },
    fixed: { published: 'compressor belt deflection' },
    expected: { ok: 'within' },
  },
]
