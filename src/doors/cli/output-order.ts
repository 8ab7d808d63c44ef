import type { PrintSources } from '../../outputs/checklist/checklist-sources.ts'

/** One file to make: text at once, print by the typesetter, with fields to fill in where it is so asked. */
export type OutputOrder =
  | { readonly name: string; readonly text: () => string }
  | { readonly name: string; readonly print: () => PrintSources; readonly fields?: true }
