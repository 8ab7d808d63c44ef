/** A small procedure with nothing wrong in it. `steps` and `more` go where a test wants something wrong. */
export function procedure(
  number: string,
  change: { readonly steps?: string; readonly documentBlock?: string } = {},
): string {
  const steps =
    change.steps ?? '1. Wipe both grease nipples clean.\n2. Pump grease until clean grease shows at the seal.\n'
  return `---
number: ${number}
title: Grease the tail pulley bearings
revision: A
status: for-review
date: 2026-03-02
---

Both bearings of the tail pulley get new grease.

\`\`\`yaml
roles:
  fitter: { who: plant fitter }
${change.documentBlock ?? ''}\`\`\`

## Grease the bearings {#grease}

\`\`\`yaml
by: fitter
\`\`\`

${steps}`
}

/** A step with a block of these lines. */
export function stepWith(...lines: readonly string[]): string {
  return ['1. Wipe both grease nipples clean.', '   ```yaml', ...lines.map((line) => `   ${line}`), '   ```', ''].join(
    '\n',
  )
}
