import type { WriteAnswer } from '../../devices/write-output.ts'
import type { OutputChoices, Paper, PrintOptions, Program } from './program.ts'
import type { Format } from './report.ts'
import type { Stopwatch } from './timings.ts'

export interface BuildOptions {
  readonly format: Format
  /** Whether drafts are written too. */
  readonly draft: boolean
  /** Output folder, relative to where the command runs. */
  readonly out: string
  /** Null: what the library says, else A4. */
  readonly paper: Paper | null
  readonly print?: PrintOptions
  /** Whether to say at the end how long each output took. */
  readonly timings: boolean
}

/** What one build works with. */
export interface BuildJob {
  readonly options: BuildOptions
  readonly program: Program
  readonly outFolder: string
  readonly shown: (path: string) => string
  readonly say: (sentence: string) => void
  readonly watch: Stopwatch
}

/** What every output is asked for; `inLibrary` is the paper that the library names. */
export function outputChoices({ options }: BuildJob, inLibrary: Paper | null): OutputChoices {
  const { paper, print } = options
  return { paper: paper ?? inLibrary ?? 'a4', ...(print === undefined ? {} : { print }) }
}

export function notWrittenSentence(answer: Extract<WriteAnswer, { kind: 'failed' }>, job: BuildJob): string {
  return `${job.shown(answer.path)} could not be written: ${answer.because}`
}
