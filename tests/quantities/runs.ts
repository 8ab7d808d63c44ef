/** How often a property is tried: seeded, so that a failure comes back; a million times on the long run. */
export function runs(usual = 10_000): { readonly seed: number; readonly numRuns: number } {
  return { seed: 20260302, numRuns: process.env.WITNESSMARK_LONG === '1' ? usual * 100 : usual }
}
