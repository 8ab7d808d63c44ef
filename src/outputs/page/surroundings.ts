import { figureAddress, findFigure } from '../../html/figure-address.ts'
import type { ProseSurroundings } from '../../html/prose-view.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { allSteps } from '../../wording/step-file-parts.ts'

/** The `id` of a step or phase on the page: never one that the page uses itself. */
export function anchorFor(id: string): string {
  return `at-${id.replace(/\s+/g, '-')}`
}

/** References are resolved seen from one phase: in a repeat they mean the same position first. */
export function surroundings(stepFile: StepFile, phase: StepFile['phases'][number] | null): ProseSurroundings {
  const steps = stepFile.phases.flatMap((one) => [one, ...allSteps(one.steps)])
  const nearFirst = phase === null ? steps : [phase, ...allSteps(phase.steps), ...steps]
  return {
    anchorOf: (reference) => {
      const found =
        nearFirst.find(({ id, baseId }) => id === reference || baseId === reference) ??
        nearFirst.find(({ id }) => id.endsWith(`/${reference}`))
      return found === undefined ? null : anchorFor(found.id)
    },
    figureSource: (file) => {
      const figure = findFigure(stepFile, file)
      return figure === null ? null : figureAddress(figure)
    },
  }
}
