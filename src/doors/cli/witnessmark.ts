import { readFileSync } from 'node:fs'
import { faultPages } from '#generated/fault-pages'
import { compileProcedure, openLibrary } from '../../compile.ts'
import { libraryOnDisk } from '../../devices/library-on-disk.ts'
import { loadTypesetter } from '../../devices/typesetter/typesetter.ts'
import { checklistSources } from '../../outputs/checklist/checklist-sources.ts'
import { pageHtml } from '../../outputs/page/page-html.ts'
import { stepFileText } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { MadeOutputs, Program } from './program.ts'

/** The real program: the compiler and its outputs over the disk. */
export const witnessmark: Program = {
  version: JSON.parse(readFileSync(new URL('../../package.json', import.meta.url), 'utf8')).version,
  pages: faultPages,
  openLibrary: (root) => {
    const library = openLibrary(libraryOnDisk(root))
    return {
      findings: library.findings,
      sources: library.sources,
      compile: (file) => compileProcedure(file, library),
    }
  },
  makeOutputs: async (stepFile, { paper, draft }): Promise<MadeOutputs> => {
    const files = [
      { name: 'steps.json', content: stepFileText(stepFile) },
      { name: 'page.html', content: pageHtml(stepFile, { draft }) },
    ]
    const typesetter = loadTypesetter()
    if ('missing' in typesetter) return { files, complaints: [typesetter.missing] }
    try {
      const content = await typesetter.render(checklistSources(stepFile, { paper, draft, standard: 'a-3a' }))
      return { files: [{ name: 'checklist.pdf', content }, ...files], complaints: [] }
    } catch (error) {
      return { files, complaints: [`checklist.pdf was not made: ${error instanceof Error ? error.message : error}`] }
    }
  },
  makeIndex: () => '',
  readStepFile: (text) => {
    try {
      const value: StepFile = JSON.parse(text)
      return value.format === 'witnessmark-step-file' ? value : null
    } catch {
      return null
    }
  },
}
