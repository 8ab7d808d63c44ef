import { faultPages } from '#generated/fault-pages'
import { validators } from '#generated/schema-validators'
import packageFile from '../../../package.json' with { type: 'json' }
import { compileProcedure, openLibrary } from '../../compile.ts'
import { libraryOnDisk } from '../../devices/library-on-disk.ts'
import { loadTypesetter, type MissingTypesetter, type Typesetter } from '../../devices/typesetter/typesetter.ts'
import { withTexts } from '../../library/with-texts.ts'
import { auditCsv } from '../../outputs/audit/audit-csv.ts'
import { auditHtml } from '../../outputs/audit/audit-html.ts'
import { checklistSources } from '../../outputs/checklist/checklist-sources.ts'
import { indexHtml } from '../../outputs/index-page/index-html.ts'
import { pageHtml } from '../../outputs/page/page-html.ts'
import { digestHolds, stepFileText } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { calculators } from '../../trade/calculators.ts'
import type { MadeOutputs, Paper, Program } from './program.ts'

/** The real program: the compiler and its outputs over the disk. */
export const witnessmark: Program = {
  version: packageFile.version,
  pages: faultPages,
  calculators,
  openLibrary: (root, texts = new Map()) => {
    const library = openLibrary(withTexts(libraryOnDisk(root), texts))
    return {
      paper: library.configuration.paper,
      findings: library.findings,
      sources: library.sources,
      compile: (file) => compileProcedure(file, library),
    }
  },
  makeOutputs,
  makeIndex: indexHtml,
  readStepFile,
}

async function makeOutputs(stepFile: StepFile, paper: Paper): Promise<MadeOutputs> {
  const draft = stepFile.document.status === 'draft'
  const files = [
    { name: 'page.html', content: pageHtml(stepFile, { draft }) },
    { name: 'audit.html', content: auditHtml(stepFile) },
    { name: 'audit.csv', content: auditCsv(stepFile) },
    { name: 'steps.json', content: stepFileText(stepFile) },
  ]
  const typesetter = theTypesetter()
  if ('missing' in typesetter) return { files, complaints: [typesetter.missing] }
  try {
    const pdf = await typesetter.render(checklistSources(stepFile, { paper, draft, standard: 'a-3a' }))
    return { files: [{ name: 'checklist.pdf', content: pdf }, ...files], complaints: [] }
  } catch (error) {
    const because = error instanceof Error ? error.message : String(error)
    return { files, complaints: [`checklist.pdf could not be made: ${because}`] }
  }
}

let loaded: Typesetter | MissingTypesetter | null = null

/** Loaded when the first checklist is made: a check needs neither its program nor its fonts. */
function theTypesetter(): Typesetter | MissingTypesetter {
  loaded ??= loadTypesetter()
  return loaded
}

/** Only what a build of this form wrote, and nobody changed since. */
function readStepFile(text: string): StepFile | null {
  const value: unknown = JSON.parse(text)
  if (validators['step-file']?.(value) !== true) return null
  const stepFile = value as StepFile
  return digestHolds(stepFile) ? stepFile : null
}
