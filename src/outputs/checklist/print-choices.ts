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
    if (!values.includes(value)) return { wrong: noValue(name, value, values) }
    own[name] = value
  }
  return { variant: own }
}

/**
 * What no document of a build has of the variants chosen, a sentence each, and the choice without it. `documents`: the variants
 * of each document. Where there is no document at all, nothing can be said.
 */
export function unknownVariants(
  documents: readonly StepFile['document']['variants'][],
  choice: VariantChoice,
): { readonly sentences: readonly string[]; readonly left: VariantChoice } {
  if (documents.length === 0) return { sentences: [], left: choice }
  const known = documents.flat()
  const sentences: string[] = []
  const left: Record<string, string> = {}
  for (const [name, value] of Object.entries(choice)) {
    const values = known.filter((one) => one.name === name).flatMap((one) => one.values)
    if (values.length === 0) sentences.push(noVariant(name, [...new Set(known.map((one) => one.name))]))
    else if (!values.includes(value)) sentences.push(noValue(name, value, values))
    else left[name] = value
  }
  return { sentences, left }
}

const noValue = (name: string, value: string, values: readonly string[]): string =>
  `the variant ${name} has no value ${value}. ${meantOf(value, values)}`

function noVariant(name: string, names: readonly string[]): string {
  const only = names.length === 0 ? 'None of these procedures has variants.' : meantOf(name, names, 'They have')
  return `no procedure here has a variant ${name}. ${only}`
}

function meantOf(typed: string, known: readonly string[], introduced = 'It has'): string {
  const near = nearestName(typed, known)
  return near === null ? `${introduced} ${[...new Set(known)].join(', ')}.` : `Did you mean ${near}?`
}
