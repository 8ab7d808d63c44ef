import { templateTexts } from '#generated/template-texts'
import { stepFileText } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { shownProofInShort } from '../../wording/proof-text.ts'
import { scheduleChart } from '../../wording/schedule-chart.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import { fetchPages, SCHEDULE_CHART } from './lay-out-fetch.ts'
import { firstPage } from './lay-out-first-page.ts'
import { phaseBlocks } from './lay-out-phases.ts'
import { figurePath } from './prose-blocks.ts'
import type { ChecklistSheet, FigureBlock, Heading, LastPage, Paper } from './sheet.ts'
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

/** A drawing made from the data of a step, shown behind its details. */
export interface StepDrawing {
  readonly step: string
  readonly svg: string
  readonly alt: string
  readonly caption: string
}

export interface ChecklistChoices {
  readonly paper: Paper
  /** NOT FOR USE across every page and no sign-off fields; so is any document that is not issued. */
  readonly draft: boolean
  readonly standard: PdfStandard
  readonly drawings?: readonly StepDrawing[]
}

/**
 * The printed checklist as templates and data. The same step file and choices give the same sources, byte for byte.
 * `steps.json` is attached to the document as it is.
 */
export function checklistSources(stepFile: StepFile, choices: ChecklistChoices): PrintSources {
  const drawings = choices.drawings ?? []
  const sheet = tidySheet(checklistSheet(stepFile, choices, drawings))
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
      ...chartFile(stepFile),
      ...drawings.map((drawing, index) => ({
        path: drawingPath(index),
        pictureName: `${drawing.caption} (drawn for ${drawing.step})`,
        text: drawing.svg,
      })),
    ],
  }
}

function checklistSheet(
  stepFile: StepFile,
  choices: ChecklistChoices,
  drawings: readonly StepDrawing[],
): ChecklistSheet {
  return {
    paper: choices.paper,
    notForUse: notForUse(stepFile, choices.draft),
    heading: heading(stepFile),
    first: firstPage(stepFile),
    fetch: fetchPages(stepFile),
    phases: phaseBlocks(stepFile, drawingBlocks(drawings)),
    last: lastPage(stepFile),
  }
}

/** Only an issued document may be worked from and signed. */
function notForUse(stepFile: StepFile, draft: boolean): string | null {
  const { status } = stepFile.document
  if (status === 'withdrawn' || status === 'for-review') return inWords(status).toUpperCase()
  return draft || status === 'draft' ? 'DRAFT' : null
}

function heading(stepFile: StepFile): Heading {
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
    digestShort: `${hex.slice(0, 4)}-${hex.slice(4, 8)}`,
    code: squareCode(document.number, document.revision, digest),
  }
}

function lastPage(stepFile: StepFile): LastPage {
  return {
    proof: shownProofInShort(stepFile),
    final: stepFile.states.map((state) => ({ label: stateInWords(state), text: state.end.map(inWords).join(' or ') })),
    oldParts: stepFile.resources.parts.map((part) => ({
      label: [part.name, part.number].filter(Boolean).join(' · '),
      text: part.quantity ?? '',
    })),
  }
}

function chartFile(stepFile: StepFile): readonly PrintFile[] {
  const chart = scheduleChart(stepFile)
  return chart === null ? [] : [{ path: SCHEDULE_CHART, pictureName: 'the bars of the phases', text: chart.svg }]
}

function drawingBlocks(drawings: readonly StepDrawing[]): ReadonlyMap<string, readonly FigureBlock[]> {
  const byStep = new Map<string, FigureBlock[]>()
  drawings.forEach((drawing, index) => {
    const block: FigureBlock = { kind: 'figure', path: drawingPath(index), alt: drawing.alt, caption: drawing.caption }
    byStep.set(drawing.step, [...(byStep.get(drawing.step) ?? []), block])
  })
  return byStep
}

const drawingPath = (index: number): string => `drawings/${index + 1}.svg`
