import { templateTexts } from '#generated/template-texts'
import { stepFileText } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { shownProofInShort } from '../../wording/proof-text.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import { drawingFiles, figuresOfSteps } from './drawing-files.ts'
import { fieldName } from './field-name.ts'
import { forVariant, type VariantChoice } from './for-variant.ts'
import { inOneUnit } from './in-one-unit.ts'
import { fetchPages } from './lay-out-fetch.ts'
import { firstPage } from './lay-out-first-page.ts'
import { phaseBlocks } from './lay-out-phases.ts'
import type { PrintChoices } from './print-choices.ts'
import { figurePath } from './prose-blocks.ts'
import type { ChecklistSheet, Heading, LastPage, Paper } from './sheet.ts'
import { squareCode } from './square-code.ts'
import { tidySheet } from './tidy-text.ts'

export type PdfStandard = 'a-3a' | 'ua-1' | null

/** Everything that is typeset into one document; nothing else is read. */
export interface PrintSources {
  /** Path of the template that is typeset. */
  readonly main: string
  readonly files: readonly PrintFile[]
  /** PDF/A-3a, PDF/UA-1, or no claim. */
  readonly standard: PdfStandard
}

export type PrintFile = {
  readonly path: string
  /** For a picture: what its author calls it, to name it in a complaint. */
  readonly pictureName?: string
} & ({ readonly text: string } | { readonly base64: string })

export interface ChecklistChoices {
  readonly paper: Paper
  /** NOT FOR USE across every page and no sign-off fields; so is any document that is not issued. */
  readonly draft: boolean
  readonly standard: PdfStandard
  /** Only what applies to one machine; else all, with marks. */
  readonly variant?: VariantChoice
  /** `one`: limits in the unit that leads alone. */
  readonly units?: PrintChoices['units']
  readonly fillable?: boolean
}

/**
 * The printed checklist as templates and data. The same step file and choices give the same sources, byte for byte.
 * `steps.json` is attached to the document as it is.
 */
export function checklistSources(stepFile: StepFile, choices: ChecklistChoices): PrintSources {
  const copy = printedCopy(stepFile, choices)
  const sheet = tidySheet(checklistSheet(copy, choices))
  const templates = Object.entries(templateTexts)
    .filter(([path]) => path.startsWith('print/') && path.endsWith('.typ'))
    .map(([path, text]) => ({ path: path.slice('print/'.length), text }))
  return {
    main: 'checklist.typ',
    standard: choices.standard,
    files: [
      ...templates,
      { path: 'sheet.json', text: JSON.stringify(sheet) },
      { path: 'steps.json', text: stepFileText(stepFile) },
      { path: 'code.svg', text: sheet.heading.code.svg },
      ...stepFile.figures.map((figure, index): PrintFile => {
        const path = figurePath(index, figure.mediaType)
        const content = figure.mediaType === 'image/svg+xml' ? { text: figure.content } : { base64: figure.content }
        return { path, pictureName: figure.file, ...content }
      }),
      ...drawingFiles(copy.stepFile),
    ],
  }
}

function printedCopy(whole: StepFile, { units, variant }: ChecklistChoices) {
  return forVariant(units === 'one' ? inOneUnit(whole) : whole, variant ?? {})
}

function checklistSheet(
  { leftOut, leftOutOf, stepFile }: ReturnType<typeof printedCopy>,
  choices: ChecklistChoices,
): ChecklistSheet {
  const variant = choices.variant ?? {}
  return {
    paper: choices.paper,
    fillable: choices.fillable ?? false,
    careful: false,
    notForUse: notForUse(stepFile, choices.draft),
    heading: heading(stepFile, variant),
    first: firstPage(stepFile, variant),
    fetch: fetchPages(stepFile, leftOut),
    phases: phaseBlocks(stepFile, figuresOfSteps(stepFile), leftOutOf),
    last: lastPage(stepFile),
  }
}

/** Only an issued document may be worked from and signed. */
function notForUse(stepFile: StepFile, draft: boolean): string | null {
  const { status } = stepFile.document
  if (status === 'withdrawn' || status === 'for-review') return inWords(status).toUpperCase()
  return draft || status === 'draft' ? 'DRAFT' : null
}

function heading(stepFile: StepFile, variant: VariantChoice): Heading {
  const { document, machine, digest } = stepFile
  const hex = digest.replace(/^sha256:/, '')
  const date = /^(\d{4})-(\d{2})-(\d{2})$/.exec(document.date)
  return {
    documentNumber: document.number,
    revision: document.revision,
    title: document.title,
    machine: machine?.name ?? null,
    language: document.language,
    date: date ? [Number(date[1]), Number(date[2]), Number(date[3])] : null,
    dateText: document.date,
    author: document.author,
    digest,
    keywords: [
      document.number,
      `rev ${document.revision}`,
      digest,
      ...Object.entries(variant).map(([name, value]) => `variant ${name}=${value}`),
    ],
    digestShort: `${hex.slice(0, 4)}-${hex.slice(4, 8)}`,
    code: squareCode(document.number, document.revision, digest),
  }
}

function lastPage(stepFile: StepFile): LastPage {
  return {
    proof: shownProofInShort(stepFile),
    final: stepFile.states.map((state) => ({
      field: fieldName('end', state.id),
      label: stateInWords(state),
      text: state.end.map(inWords).join(' or '),
    })),
    oldParts: stepFile.resources.parts.map((part) => ({
      label: [part.name, part.number].filter(Boolean).join(' · '),
      text: part.quantity ?? '',
    })),
  }
}
