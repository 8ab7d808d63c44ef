import type { OutputFile } from '../../devices/write-output.ts'
import type { Finding } from '../../findings/finding.ts'
import type { PrintChoices } from '../../outputs/checklist/print-choices.ts'
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
  readonly makeOutputs: (stepFile: StepFile, choices: OutputChoices) => Promise<MadeOutputs>
  /** The files that stand beside the folders of the documents: index, audit, and the pick list of what was built together. */
  readonly makeLibraryFiles: (
    documents: readonly IndexedDocument[],
    built: readonly StepFile[],
    choices: OutputChoices,
  ) => Promise<MadeOutputs>
  /** Others that make outputs at the same time; left out where there are none. */
  readonly hireHands?: () => Hands
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

/** What whoever prints may choose beside the paper. */
export type PrintOptions = Omit<PrintChoices, 'paper'>

export const papers = ['a4', 'letter'] as const
export type Paper = (typeof papers)[number]

/** What was asked for on the command line, of every output. */
export interface OutputChoices {
  readonly paper: Paper
  /** Left out: PDF/A-3a, in the units of the document, for every machine, for paper alone. */
  readonly print?: PrintOptions
}

export interface MadeOutputs {
  readonly files: readonly OutputFile[]
  readonly complaints: readonly string[]
  /** How long each took. */
  readonly timings?: readonly OutputTiming[]
}

export interface OutputTiming {
  readonly what: string
  readonly milliseconds: number
}

/** Workers that make outputs; whoever hired them lets them go. */
export interface Hands {
  readonly makeOutputs: Program['makeOutputs']
  readonly letGo: () => Promise<void>
}

export interface IndexedDocument {
  /** Folder in the output folder. */
  readonly folder: string
  readonly stepFile: StepFile
  /** Names of the files that stand there. */
  readonly files: readonly string[]
}
