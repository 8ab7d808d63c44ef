import type { Fault } from '../../findings/finding.ts'
import type { Phase, Procedure } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { stepsBelow } from '../every-step.ts'

/** The second seal is missed when the hub is open and the store is closed. */
export const tooFewListed: Check = {
  name: 'resources/too-few-listed',
  severity: 'warning',
  title: 'More of a part goes in than the list says to fetch.',
  rules: ['PR-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { id, quantity, listed, at } of procedure.resources.parts) {
      const fetched = wholeNumber(quantity)
      if (!listed || fetched === null) continue
      const wanted = wantedOf(procedure, id)
      if (wanted <= fetched) continue
      yield {
        at,
        message: `The steps fit ${wanted} of "${id}", and the list says to fetch ${fetched}.`,
        advice: `Write quantity: ${wanted}, or correct the counts under fits.`,
      }
    }
  },
}

/** What every way fits, and what the branch that fits most adds to it; steps of one variant and steps that may be skipped are left out. */
function wantedOf({ phases }: Procedure, part: string): number {
  const counts = phases.map((phase) => ({ isBranch: phase.kind === 'branch', count: fittedIn(phase, part) }))
  const always = counts.filter(({ isBranch }) => !isBranch).reduce((sum, { count }) => sum + count, 0)
  return always + Math.max(0, ...counts.filter(({ isBranch }) => isBranch).map(({ count }) => count))
}

function fittedIn(phase: Phase, part: string): number {
  if (phase.only !== null || phase.when !== null) return 0
  return stepsBelow(phase.steps)
    .filter((step) => step.only === null && step.when === null)
    .flatMap((step) => step.fits)
    .filter(({ id }) => id === part)
    .reduce((sum, { count }) => sum + (wholeNumber(count) ?? 0), 0)
}

const wholeNumber = (typed: string | null): number | null =>
  typed !== null && /^\d+$/.test(typed) ? Number(typed) : null
