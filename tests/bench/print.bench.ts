import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { loadTypesetter } from '../../src/devices/typesetter/typesetter.ts'
import { checklistSources } from '../../src/outputs/checklist/checklist-sources.ts'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { stepFileOf } from '../compile-text.ts'
import { mapLibrary } from '../map-library.ts'
import { madeProcedure } from './made-procedures.ts'

/*
 * From a step file to the finished PDF/A, once the typesetter is warm: sixty plain steps, and sixty dense ones with warnings,
 * readings, tries, torques and holds. No document is set twice. Processor time tells a slow program from a busy machine.
 */

/** Milliseconds, of the plain one. */
const TARGET = 250
const STEPS = 60
const WARM_UP = 2

interface Time {
  readonly clock: number
  readonly processor: number
  readonly pages: number
}

const loaded = loadTypesetter()
if ('missing' in loaded) throw new Error(loaded.missing)
const typesetter = loaded

const issued = (file: StepFile): StepFile => ({ ...file, document: { ...file.document, status: 'issued' } })

/** Six phases of ten steps that say what is to be done and nothing else. */
function plain(round: number): StepFile {
  const head = 'Go over the guard.\n\n```yaml\nroles: { fitter: { who: fitter } }\n```\n\n'
  const phases = Array.from({ length: 6 }, (_, part) => {
    const steps = Array.from(
      { length: STEPS / 6 },
      (_, index) => `${index + 1}. Tighten bolt ${round}-${index + 1} of the guard and look at it.\n`,
    )
    return `## Part ${part + 1} {#part-${part}}\n\n\`\`\`yaml\nby: fitter\n\`\`\`\n\n${steps.join('')}`
  })
  return issued(stepFileOf(head + phases.join('\n')))
}

/** Four steps a phase, no two documents with the same texts. */
function dense(round: number): StepFile {
  const file = `procedures/made/made-${round}.md`
  const reader = mapLibrary({ [file]: madeProcedure(round + 1, 16, 0) })
  const { stepFile, findings } = compileProcedure(file, openLibrary(reader))
  if (stepFile === null) throw new Error(findings.map(({ message }) => message).join('\n'))
  return issued(stepFile)
}

async function timed(file: StepFile): Promise<Time> {
  const before = process.cpuUsage()
  const start = performance.now()
  const sources = checklistSources(file, { paper: 'a4', draft: false, standard: 'a-3a' })
  const { pages } = await typesetter.typeset(sources)
  const clock = performance.now() - start
  const { user, system } = process.cpuUsage(before)
  return { clock, processor: (user + system) / 1000, pages }
}

console.log('| what | steps | pages | rounds | clock median, ms | processor median, ms | target, ms |')
console.log('|---|---|---|---|---|---|---|')
for (const { what, make, rounds, target } of [
  { what: 'plain', make: plain, rounds: 9, target: TARGET },
  { what: 'dense', make: dense, rounds: 3, target: null },
]) {
  const times: Time[] = []
  let steps = 0
  for (let round = -WARM_UP; round < rounds; round++) {
    const file = make(round + WARM_UP)
    steps = file.phases.reduce((sum, phase) => sum + phase.steps.length, 0)
    const time = await timed(file)
    if (round >= 0) times.push(time)
  }
  const processor = median(times.map((time) => time.processor))
  const aim = target === null ? '' : `${target}${processor < target ? '' : ' MISSED'}`
  const clock = median(times.map((time) => time.clock))
  console.log(`| ${[what, steps, times[0]?.pages, rounds, clock.toFixed(0), processor.toFixed(0), aim].join(' | ')} |`)
}

function median(values: readonly number[]): number {
  return values.toSorted((a, b) => a - b)[Math.floor(values.length / 2)] ?? Number.NaN
}
