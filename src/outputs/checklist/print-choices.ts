import type { StepFile } from '../../step-file/step-file.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { VariantChoice } from './for-variant.ts'
import type { Paper } from './sheet.ts'

/** What whoever prints may choose. */
export interface PrintChoices {
  readonly paper: Paper
  /** One standard a file: PDF/A-3a for the archive, with the step file attached; PDF/UA-1 for readers who listen. */
  readonly standard: PdfStandardChoice
  /** Every limit in the unit that leads alone, or in the units that the document asks for. */
  readonly units: 'one' | 'two'
  /** Only what applies to this machine; empty for all, with marks. */
  readonly variant: VariantChoice
  /** A copy to be filled in on a screen, beside the one for paper. */
  readonly fillable: boolean
}

export const pdfStandards = ['a-3a', 'ua-1'] as const
export type PdfStandardChoice = (typeof pdfStandards)[number]
export const unitCounts = ['one', 'two'] as const

/**
 * `checklist.pdf`, or `checklist-wheel-stud-m22.pdf` for one machine; `checklist-fillable.pdf` to fill in.
 * Ids of variants are letters, digits, `-`, `_` and `.`; what else stands in one becomes `-`.
 */
export function checklistFileName(variant: VariantChoice, fillable: boolean): string {
  const words = Object.entries(variant).flat()
  return `${['checklist', ...words.map((word) => word.replace(/[^\p{L}\p{N}_-]+/gu, '-')), ...(fillable ? ['fillable'] : [])].join('-')}.pdf`
}

/** Whether a file is one of those that a build names so. */
export const isChecklistFile = (name: string): boolean => /^checklist(?:-[\p{L}\p{N}_-]+)?\.pdf$/u.test(name)

export type ReadVariant = { readonly variant: VariantChoice } | { readonly wrong: string }

/** `wheel-stud=m22`, one a variant. */
export function readVariant(typed: readonly string[]): ReadVariant {
  const variant: Record<string, string> = {}
  for (const one of typed) {
    const [, name = '', value = ''] = /^\s*([^=\s]+)\s*=\s*(\S+)\s*$/.exec(one) ?? []
    if (name === '') return { wrong: `“${one}” is no variant: write its name and value, such as wheel-stud=m22.` }
    if (name in variant) return { wrong: `The variant ${name} is given twice: a copy is for one value.` }
    variant[name] = value
  }
  return { variant }
}

/**
 * What a document has of the variants chosen. A name that it does not have is left out, as other documents of the same
 * build may have it; a value that it does not have is wrong.
 */
export function variantOf(stepFile: StepFile, choice: VariantChoice): ReadVariant {
  const own: Record<string, string> = {}
  for (const { name, values } of stepFile.document.variants) {
    const value = choice[name]
    if (value === undefined) continue
    if (!values.includes(value)) {
      const near = nearestName(value, values)
      const meant = near === null ? `It has ${values.join(', ')}.` : `Did you mean ${near}?`
      return { wrong: `the variant ${name} has no value ${value}. ${meant}` }
    }
    own[name] = value
  }
  return { variant: own }
}
