const isLongRun = process.env.WITNESSMARK_LONG === '1'

/** How often a property is tried: seeded, so that a failure comes back; a hundred times as often on the long run. */
export function runs(usual = 10_000): { readonly seed: number; readonly numRuns: number } {
  return { seed: 20260302, numRuns: isLongRun ? usual * 100 : usual }
}

/** Milliseconds that a property may take before it counts as hanging. */
export const LONGEST = isLongRun ? 3_600_000 : 120_000
