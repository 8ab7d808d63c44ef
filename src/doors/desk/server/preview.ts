import { loadTypesetter, type MissingTypesetter, type Typesetter } from '../../../devices/typesetter/typesetter.ts'
import { type DocumentDrawing, documentDrawings } from '../../../drawings/document-drawings.ts'
import type { FlowProof } from '../../../flow/proof.ts'
import { checklistSources, type PrintSources } from '../../../outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../../outputs/page/page-html.ts'
import { makeStepFile } from '../../../step-file/make-step-file.ts'
import type { StepFile } from '../../../step-file/step-file.ts'
import type { Looked } from './workplace.ts'

/** What is shown of a text, and whether it is only a first sight of something unfinished. */
export interface Sheet {
  readonly stepFile: StepFile
  readonly isUnfinished: boolean
}

const nothingFollowed: FlowProof = {
  verdict: 'not-proved',
  situations: 0,
  variants: 0,
  faults: [],
  properties: [],
  notModelled: [],
}

const sheets = new WeakMap<Looked, Sheet | null>()

/**
 * The step file of a text; with errors in it, what could be understood so far. That one is never built, and is
 * shown only as a draft: NOT FOR USE, nothing to sign.
 */
export function sheetOf(looked: Looked): Sheet | null {
  const before = sheets.get(looked)
  if (before !== undefined) return before
  const sheet = madeSheet(looked)
  sheets.set(looked, sheet)
  return sheet
}

function madeSheet({ compiled }: Looked): Sheet | null {
  if (compiled.stepFile !== null) return { stepFile: compiled.stepFile, isUnfinished: false }
  const { procedure } = compiled
  if (procedure === null || procedure.phases.length === 0) return null
  try {
    const draft = { ...procedure, document: { ...procedure.document, status: 'draft' as const } }
    return {
      stepFile: makeStepFile(draft, compiled.flow ?? nothingFollowed, compiled.findings, []),
      isUnfinished: true,
    }
  } catch {
    // Half a procedure may lack what a step file cannot do without; then the last good page stays.
    return null
  }
}

/** The page of a text as the technician gets it, or null. */
export function pageOf(looked: Looked): string | null {
  const sheet = sheetOf(looked)
  if (sheet === null) return null
  try {
    return pageHtml(sheet.stepFile, { draft: sheet.isUnfinished || sheet.stepFile.document.status === 'draft' })
  } catch (error) {
    if (sheet.isUnfinished) return null
    throw error
  }
}

export type Typeset<Made> =
  | { readonly kind: 'made'; readonly made: Made }
  | { readonly kind: 'failed'; readonly because: string }

let loaded: Typesetter | MissingTypesetter | null = null

/** The printed sheet of a text as it goes to the printer. */
export const printOf = oncePerLook((typesetter, sources) => typesetter.render(sources))

/** The printed sheet as a picture for the screen, with where each step came to stand. */
export const pictureOf = oncePerLook((typesetter, sources) => typesetter.picture(sources))

function oncePerLook<Made>(
  make: (typesetter: Typesetter, sources: PrintSources) => Promise<Made>,
): (looked: Looked) => Promise<Typeset<Made>> {
  const done = new WeakMap<Looked, Promise<Typeset<Made>>>()
  return (looked) => {
    const before = done.get(looked)
    if (before !== undefined) return before
    const result = typeset(looked, make)
    done.set(looked, result)
    return result
  }
}

async function typeset<Made>(
  looked: Looked,
  make: (typesetter: Typesetter, sources: PrintSources) => Promise<Made>,
): Promise<Typeset<Made>> {
  const sheet = sheetOf(looked)
  if (sheet === null) return { kind: 'failed', because: 'There is nothing to print yet.' }
  loaded ??= loadTypesetter()
  if ('missing' in loaded) return { kind: 'failed', because: loaded.missing }
  const draft = sheet.isUnfinished || sheet.stepFile.document.status === 'draft'
  const paper = looked.library.configuration.paper ?? 'a4'
  try {
    const sources = checklistSources(sheet.stepFile, { paper, draft, standard: 'a-3a' })
    return { kind: 'made', made: await make(loaded, sources) }
  } catch (error) {
    return { kind: 'failed', because: error instanceof Error ? error.message : String(error) }
  }
}

/** The ways through the work, drawn; empty where nothing can be drawn yet. */
export function drawingsOf(looked: Looked): readonly Pick<DocumentDrawing, 'of' | 'title' | 'says' | 'svg'>[] {
  const sheet = sheetOf(looked)
  if (sheet === null) return []
  try {
    return documentDrawings(sheet.stepFile).filter((drawing) => drawing.of === 'flow')
  } catch (error) {
    if (sheet.isUnfinished) return []
    throw error
  }
}
