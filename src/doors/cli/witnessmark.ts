import { faultPages } from '#generated/fault-pages'
import { validators } from '#generated/schema-validators'
import packageFile from '../../../package.json' with { type: 'json' }
import { compileProcedure, openLibrary } from '../../compile.ts'
import { libraryOnDisk } from '../../devices/library-on-disk.ts'
import { withTexts } from '../../library/with-texts.ts'
import { digestHolds } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { calculators } from '../../trade/calculators.ts'
import { makeLibraryFiles, makeOutputs } from './make-outputs.ts'
import type { Program } from './program.ts'

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
  makeLibraryFiles,
  readStepFile,
}

/** Only what a build of this form wrote, and nobody changed since. */
function readStepFile(text: string): StepFile | null {
  const value: unknown = JSON.parse(text)
  if (validators['step-file']?.(value) !== true) return null
  const stepFile = value as StepFile
  return digestHolds(stepFile) ? stepFile : null
}
