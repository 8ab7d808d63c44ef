import type { Consequence } from '../outcomes.ts'
import type { Phase, Step } from '../procedure.ts'

/** How often a step that nobody bounded is given columns for. */
const COLUMNS_WITHOUT_BOUND = 3

/** Gives each step the number of times that it may have to be done: bounded redos and repeats until. */
export function countTries(phases: readonly Phase[]): readonly Phase[] {
  const tries = new Map<string, number>()
  const raise = (id: string, count: number): void => {
    tries.set(id, Math.max(tries.get(id) ?? 1, count))
  }
  const visit = (steps: readonly Step[]): void => {
    for (const step of steps) {
      for (const consequence of step.consequences.flatMap(withThen)) {
        if (consequence.action !== 'redo') continue
        const count = consequence.atMost ?? COLUMNS_WITHOUT_BOUND
        raise(step.id, count)
        for (const target of consequence.targets) raise(target.id, count)
      }
      visit(step.steps)
    }
  }
  for (const phase of phases) visit(phase.steps)
  const inLoop = loopTries(phases)
  const apply = (steps: readonly Step[], phase: Phase): readonly Step[] =>
    steps.map((step) => ({
      ...step,
      tries: Math.max(tries.get(step.id) ?? 1, inLoop.get(phase.id) ?? 1),
      steps: apply(step.steps, phase),
    }))
  return phases.map((phase) => ({ ...phase, steps: apply(phase.steps, phase) }))
}

function withThen(consequence: Consequence): readonly Consequence[] {
  return consequence.then ? [consequence, ...withThen(consequence.then)] : [consequence]
}

/** Passes of the `repeat until` that a phase lies in, by phase id. */
function loopTries(phases: readonly Phase[]): ReadonlyMap<string, number> {
  const tries = new Map<string, number>()
  for (const [index, phase] of phases.entries()) {
    if (phase.until === null) continue
    const first = phases.findIndex((candidate) => candidate.id === phase.until?.first)
    const count = phase.until.atMost ?? COLUMNS_WITHOUT_BOUND
    const last = lastBranch(phases, index)
    for (const member of phases.slice(first, last + 1)) tries.set(member.id, Math.max(tries.get(member.id) ?? 1, count))
  }
  return tries
}

/** Index of the last branch that belongs to the phase at `index`. */
function lastBranch(phases: readonly Phase[], index: number): number {
  let last = index
  while (phases[last + 1]?.under === phases[index]?.id) last++
  return last
}
