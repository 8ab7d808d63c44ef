import type { CaseMapping } from '../mapping.ts'

const press = {
  F1: 'force-one',
  A1: 'area-one',
  d1: 'bore-one',
  F2: 'force-two',
  A2: 'area-two',
  d2: 'bore-two',
} as const

export const hydraulics: readonly CaseMapping[] = [
  { calculator: 'pressure-force', inputs: { P: 'pressure', A: 'area', d: 'bore' }, expected: { F: 'force' } },
  {
    calculator: 'hydraulic-press',
    inputs: press,
    expected: { P: 'pressure', F1: 'force-one', F2: 'force-two', A1: 'area-one', A2: 'area-two' },
  },
  {
    calculator: 'pedal-press',
    inputs: { F: 'force', area_ratio: 'area-ratio', lever: 'lever', stroke: 'stroke' },
    expected: { F_no_lever: 'force-out', F_with_lever: 'force-with-lever', stroke_out: 'stroke-out' },
  },
  {
    calculator: 'cylinder-force',
    inputs: { bore: 'bore', rod: 'rod', P: 'pressure' },
    expected: { extend: 'push', retract: 'pull', P_rod_side: 'blocked-rod-side' },
  },
  { calculator: 'absolute-pressure', inputs: { gauge: 'gauge' }, expected: { abs: 'absolute' } },
  { calculator: 'liquid-column', inputs: { h: 'height' }, expected: { P: 'pressure' } },
  {
    calculator: 'oil-compression',
    inputs: { V: 'volume', P: 'pressure', B: 'bulk-modulus' },
    expected: { dV: 'let-off', E: 'energy' },
  },
  {
    calculator: 'stored-gas-energy',
    inputs: {
      P: 'absolute-pressure',
      P_abs: 'absolute-pressure',
      Pt_abs: 'absolute-pressure',
      V: 'volume',
      Pa: 'air',
      k: 'heat-ratio',
    },
    expected: {
      E: 'energy',
      TNT: 'tnt',
      R_scaled20: 'scaled-distance',
      table_distance_m: 'least-distance',
      E_isothermal: 'isothermal-energy',
      ratio_to_adiabatic: 'isothermal-ratio',
    },
  },
  {
    calculator: 'blast-distance',
    inputs: { E: 'energy' },
    expected: {
      TNT: 'tnt',
      TNT_pcc2: 'tnt',
      TNT_other: 'tnt-university',
      R20: 'scaled-distance',
      distance: 'least-distance',
      high: 'high-hazard',
    },
  },
  {
    calculator: 'accumulator-oil',
    inputs: { P1_abs: 'precharge-absolute', V1: 'volume', P2_abs: 'system-absolute' },
    expected: { V2: 'gas-volume', oil: 'oil' },
  },
]
