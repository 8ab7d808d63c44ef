import { readFileSync } from 'node:fs'
import { globSync } from 'tinyglobby'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'

/*
 * How many lines an author types for each fact that the step file holds: steps, roles, states, zones, what a step changes, proves, needs and
 * uses, readings with their limits and places, torques, loads, signatures, hazards, ways on. A repeat or a refit by `reverse` counts once
 * for each position and step, because that is what it saves its author.
 */

const root = process.cwd()
const library = openLibrary(libraryOnDisk(root))
console.log('| procedure | lines that are not empty | of them in blocks | steps | facts | lines a fact |')
console.log('|---|---|---|---|---|---|')
for (const path of globSync('procedures/*/*.md', { cwd: root }).sort()) {
  const { stepFile } = compileProcedure(path, library)
  if (stepFile === null) throw new Error(`${path} does not compile`)
  const lines = readFileSync(path, 'utf8')
    .split('\n')
    .filter((line) => line.trim() !== '')
  const { steps, facts } = counted(stepFile)
  console.log(
    `| ${stepFile.document.number} | ${lines.length} | ${inBlocks(lines)} | ${steps} | ${facts} | ${(lines.length / facts).toFixed(2)} |`,
  )
}

function inBlocks(lines: readonly string[]): number {
  let open = false
  return lines.filter((line) => {
    const fence = /^\s*```/.test(line)
    if (fence) open = !open
    return open || fence
  }).length
}

function counted(stepFile: StepFile): { readonly steps: number; readonly facts: number } {
  const steps = stepFile.phases.flatMap(({ steps: inPhase }) => inPhase)
  const inSteps = steps.map(
    (step) =>
      1 +
      step.by.length +
      step.sets.length +
      step.proves.length +
      step.needs.length +
      step.removes.length +
      step.refits.length +
      step.locks.length +
      step.unlocks.length +
      step.putsOn.length +
      step.takesOff.length +
      step.fits.length +
      step.uses.length +
      step.hazards.length +
      step.holds.length +
      step.consequences.length +
      step.torques.length * 6 +
      step.readings.length * 3 +
      (step.decide === null ? 0 : step.decide.branches.length),
  )
  const whole =
    stepFile.roles.length + stepFile.hazards.length * 4 + stepFile.states.length * 5 + stepFile.zones.length * 3
  return { steps: steps.length, facts: inSteps.reduce((sum, one) => sum + one, whole) }
}
