/** Sourced tables of tightening. Scatter and torques of other fasteners than named here come from their maker. */

/** MIL-HDBK-60, 12 Mar 1990, table I: accuracy of preload by method, in percent. Where it gives a range, both ends. */
export const accuracyByMethod: Readonly<Record<string, readonly [best: number, worst: number]>> = {
  feel: [35, 35],
  'torque wrench': [25, 25],
  'turn of nut': [15, 15],
  'preload indicating washer': [10, 10],
  'bolt elongation': [3, 5],
  'strain gauge': [1, 1],
}

/** NASA-STD-5020B, 6 Aug 2021, 4.3.3 and appendix A.2: preload variation for torque control without tests, in percent. */
export const torqueControlScatter = { lubricated: 25, dry: 35 } as const

/**
 * Scatter of a preload in percent, for planning: the wider end of a range; by torque wrench 25 on lubricated threads and 35 on dry ones. Where
 * nobody says whether the threads are lubricated, the wider of the two sources holds.
 */
export function scatterOf(method: string | null, threads: string | null): number {
  const [, worst] = accuracyByMethod[method ?? 'torque wrench'] ?? [0, 0]
  if (method !== null && method !== 'torque wrench') return worst
  return threads === 'lubricated' ? torqueControlScatter.lubricated : torqueControlScatter.dry
}

/**
 * Nut factors K in hundredths, as used in tables of torque against tension for SAE J429 bolts. Common practice: NASA-STD-5020B asks for
 * tests of the fasteners at hand instead. Lubricated threads tightened with the K of dry ones are over-tightened by a third.
 */
export const nutFactors: Readonly<Record<string, number>> = {
  'plain and dry': 20,
  'zinc plated and dry': 18,
  lubricated: 15,
}

/** MSFC-STD-486B, Nov 1992, appendix A, table I (tolerance +0/−15 %), in lbf·in: SAE 2 dry, lubricated, SAE 5 dry, lubricated. */
export const msfcTorques: Readonly<Record<string, readonly [number, number, number, number]>> = {
  '1/4': [55, 42, 80, 72],
  '3/8': [180, 135, 265, 228],
  '1/2': [420, 315, 610, 540],
  '3/4': [1380, 1080, 2340, 1620],
}

/**
 * Self-locking nuts: largest locking and smallest breakaway torque in lbf·in. MSFC-STD-486B, Nov 1992, table XI (1/4, 3/8, 1/2 and 3/4);
 * breakaway of the others TM 55-1520-240-23-1, p. 1-14, which agrees in all rows both have; their locking torque from memory.
 */
export const lockingTorques: Readonly<Record<string, readonly [largestLocking: number, smallestBreakaway: string]>> = {
  '8-32': [15, '1.5'],
  '10-32': [18, '2'],
  '1/4-28': [30, '3.5'],
  '5/16-24': [60, '6.5'],
  '3/8-24': [80, '9.5'],
  '7/16-20': [100, '14'],
  '1/2-20': [150, '18'],
  '9/16-18': [200, '24'],
  '5/8-18': [300, '32'],
  '3/4-16': [400, '50'],
  '7/8-14': [600, '70'],
  '1-12': [800, '90'],
  '1-1/8-12': [900, '117'],
  '1-1/4-12': [1000, '143'],
}

/**
 * Nuts on clean, oil-free, cadmium-plated threads, in lbf·in: tension nuts, shear nuts, most allowed in tension and in shear. FAA AC 43.13-1B,
 * 8 Sep 1998, table 7-1; TM 9-6150-228-13&P, table H-1, has the same figures but for 3/8-16, see below.
 */
export const nutTorqueRanges: Readonly<Record<string, readonly [number, number, number, number, number, number]>> = {
  '8-36': [12, 15, 7, 9, 20, 12],
  '10-32': [20, 25, 12, 15, 40, 25],
  '1/4-28': [50, 70, 30, 40, 100, 60],
  '5/16-24': [100, 140, 60, 85, 225, 140],
  '3/8-24': [160, 190, 95, 110, 390, 240],
  '7/16-20': [450, 500, 270, 300, 840, 500],
  '1/2-20': [480, 690, 290, 410, 1100, 660],
  '9/16-18': [800, 1000, 480, 600, 1600, 960],
  '5/8-18': [1100, 1300, 600, 780, 2400, 1400],
  '3/4-16': [2300, 2500, 1300, 1500, 5000, 3000],
  '7/8-14': [2500, 3000, 1500, 1800, 7000, 4200],
  '1-14': [3700, 5500, 2200, 3300, 10000, 6000],
  '1-1/8-12': [5000, 7000, 3000, 4200, 15000, 9000],
  '1-1/4-12': [9000, 11000, 5400, 6600, 25000, 15000],
  '8-32': [12, 15, 7, 9, 20, 12],
  '10-24': [20, 25, 12, 15, 35, 21],
  '1/4-20': [40, 50, 25, 30, 75, 45],
  '5/16-18': [80, 90, 48, 55, 160, 100],
  // The advisory circular begins this range at 160, TM 9-6150-228-13&P at 150: the lower one is kept.
  '3/8-16': [150, 185, 95, 100, 275, 170],
  '7/16-14': [235, 255, 140, 155, 475, 280],
  '1/2-13': [400, 480, 240, 290, 880, 520],
  '9/16-12': [500, 700, 300, 420, 1100, 650],
  '5/8-11': [700, 900, 420, 540, 1500, 900],
  '3/4-10': [1150, 1600, 700, 950, 2500, 1500],
  '7/8-9': [2200, 3000, 1300, 1800, 4600, 2700],
}
