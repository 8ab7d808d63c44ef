import type { OutputFile } from '../../devices/write-output.ts'
import type { Finding } from '../../findings/finding.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { SourceText } from '../../text/source-text.ts'
import type { Calculator } from '../../trade/calculator.ts'

/** What the commands stand on: the compiler and its outputs over the disk. Tests put a failing part in its place. */
export interface Program {
  readonly version: string
  /** The page of every kind of finding, by name, as Markdown. */
  readonly pages: Readonly<Record<string, string>>
  /** What `calc` can work out. */
  readonly calculators: readonly Calculator[]
  /**
   * Opens the library of a root folder. Findings are those of its settings and of `shared/`; places are relative to the root.
   * `texts` stand, by their path in the library, in the place of what is on the disk.
   */
  readonly openLibrary: (root: string, texts?: ReadonlyMap<string, string>) => Library
  /** The files of a document, and a sentence for each that could not be made. A draft is marked NOT FOR USE on each. */
  readonly makeOutputs: (stepFile: StepFile, paper: Paper) => Promise<MadeOutputs>
  readonly makeIndex: (documents: readonly IndexedDocument[]) => string
  /** A step file read back from the disk, or null where the text is none. */
  readonly readStepFile: (text: string) => StepFile | null
}

export interface Library {
  /** What `witnessmark.yaml` says, or null. */
  readonly paper: Paper | null
  readonly findings: readonly Finding[]
  readonly sources: readonly SourceText[]
  /** `file` is relative to the root, with forward slashes. */
  readonly compile: (file: string) => Compiled
}

export interface Compiled {
  readonly findings: readonly Finding[]
  /** Null where an error stands in the way. */
  readonly stepFile: StepFile | null
  readonly sources: readonly SourceText[]
}

export const papers = ['a4', 'letter'] as const
export type Paper = (typeof papers)[number]

export interface MadeOutputs {
  readonly files: readonly OutputFile[]
  readonly complaints: readonly string[]
}

export interface IndexedDocument {
  /** Folder in the output folder. */
  readonly folder: string
  readonly stepFile: StepFile
  /** Names of the files that stand there. */
  readonly files: readonly string[]
}
