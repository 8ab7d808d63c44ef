import { runCommand } from './command-line.ts'
import type { Surroundings } from './surroundings.ts'
import { witnessmark } from './witnessmark.ts'

/** What `witnessmark.mjs` runs. Gives the exit status. */
export function main(typed: readonly string[], surroundings: Surroundings): Promise<number> {
  return runCommand(typed, surroundings, witnessmark)
}
