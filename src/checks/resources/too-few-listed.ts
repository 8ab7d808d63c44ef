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

/** The most that one way through the job fits: branches of a phase exclude one another; what may be skipped counts, variants do not. */
function wantedOf({ phases }: Procedure, part: string): number {
  const branches = new Map<string, number>()
  let sum = 0
  for (const phase of phases) {
    const count = fittedIn(phase, part)
    if (phase.kind === 'branch') branches.set(phase.under ?? '', Math.max(branches.get(phase.under ?? '') ?? 0, count))
    else sum += count
  }
  return [...branches.values()].reduce((before, count) => before + count, sum)
}

function fittedIn(phase: Phase, part: string): number {
  if (phase.only !== null) return 0
  return stepsBelow(phase.steps)
    .filter((step) => step.only === null)
    .flatMap((step) => step.fits)
    .filter(({ id }) => id === part)
    .reduce((sum, { count }) => sum + (wholeNumber(count) ?? 0), 0)
}

const wholeNumber = (typed: string | null): number | null =>
  typed !== null && /^\d+$/.test(typed) ? Number(typed) : null
