import type { StepFile } from '../../step-file/step-file.ts'
import { whatCanKill } from '../../wording/what-can-kill.ts'
import { placedSteps, placesInShort } from './places.ts'

/** One danger, from what controls it to what proves it held. */
export interface HazardLine {
  readonly word: string
  readonly what: string
  readonly controls: string
  /** Steps that its message stands before. */
  readonly steps: string
  readonly proved: string
  readonly isProved: boolean
  readonly everyWay: string
}

const EVERY_WAY: Readonly<Record<StepFile['proof']['verdict'], string>> = {
  proved: 'yes',
  faulty: 'no: see what was accepted',
  'not-proved': 'not shown',
  'nothing-to-prove': 'nothing was declared',
}

export function hazardLines(stepFile: StepFile): readonly HazardLine[] {
  const steps = placedSteps(stepFile)
  return whatCanKill(stepFile, Number.POSITIVE_INFINITY).lines.flatMap((line) => {
    if (line.signalWord === null) return []
    const guarded = steps.filter(({ step, phase }) => step.hazards.includes(line.id) || phase.hazards.includes(line.id))
    return [
      {
        word: line.signalWord.toUpperCase(),
        what: line.what,
        controls: line.held,
        steps: placesInShort(guarded),
        proved: line.proved,
        isProved: line.isProved,
        everyWay: line.isProved ? EVERY_WAY[stepFile.proof.verdict] : 'nothing proves it',
      },
    ]
  })
}
