import { runCommand } from './command-line.ts'
import { hireHands } from './output-hands.ts'
import type { Surroundings } from './surroundings.ts'
import { witnessmark } from './witnessmark.ts'

export { runErrand } from './output-hands.ts'

/** What `witnessmark.mjs` runs. Gives the exit status. `worker` is the script of those who make outputs at the same time. */
export function main(
  typed: readonly string[],
  surroundings: Surroundings,
  worker: { readonly script: URL; readonly count: number },
): Promise<number> {
  const program = { ...witnessmark, hireHands: () => hireHands(worker.script, worker.count) }
  return runCommand(typed, surroundings, program)
}
