import { checklistSources } from '../../outputs/checklist/checklist-sources.ts'
import { checklistFileName, variantOf } from '../../outputs/checklist/print-choices.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { OutputOrder } from './output-order.ts'
import type { OutputChoices, PrintOptions } from './program.ts'

export const plainPrint: PrintOptions = { standard: 'a-3a', units: 'two', variant: {}, fillable: false }

/**
 * The checklists of one document: the one for every machine, with marks; where a variant is chosen, one for that machine
 * alone beside it; where fields are asked for, a copy of the last of them to be filled in.
 */
export function checklistOrders(
  stepFile: StepFile,
  { paper, print = plainPrint }: OutputChoices,
): readonly OutputOrder[] {
  const draft = stepFile.document.status === 'draft'
  const { standard, units, fillable } = print
  const all = { paper, draft, standard, units }
  const plain: OutputOrder = { name: checklistFileName({}, false), print: () => checklistSources(stepFile, all) }
  const read = variantOf(stepFile, print.variant)
  if ('wrong' in read) return [plain, refused(checklistFileName(print.variant, false), read.wrong)]
  const { variant } = read
  const isForOne = Object.keys(variant).length > 0
  const forOne: OutputOrder = {
    name: checklistFileName(variant, false),
    print: () => checklistSources(stepFile, { ...all, variant }),
  }
  const toFill: OutputOrder = {
    name: checklistFileName(variant, true),
    print: () => checklistSources(stepFile, { ...all, variant, standard: null, fillable: true }),
    fields: true,
  }
  return [plain, ...(isForOne ? [forOne] : []), ...(fillable ? [toFill] : [])]
}

/** Told where the file would have been made. */
function refused(name: string, because: string): OutputOrder {
  return {
    name,
    print: () => {
      throw new Error(because)
    },
  }
}
