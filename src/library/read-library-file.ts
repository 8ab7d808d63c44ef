import { type Finding, found, type Outcome } from '../findings/finding.ts'
import type { BlockNode } from '../syntax/block-node.ts'
import { fitValue } from '../syntax/fit-schema.ts'
import { readYamlText } from '../syntax/read-yaml-text.ts'
import { type SourceText, sourceText } from '../text/source-text.ts'
import { fileRefused } from './faults/faults.ts'
import type { LibraryReader } from './library-reader.ts'

/** A file of the library by its schema, and its text for showing findings. */
export interface LibraryFile {
  readonly value: BlockNode | null
  readonly source: SourceText | null
}

/** Reads a YAML file and judges it by its schema; a missing file is no finding. */
export function readLibraryFile(reader: LibraryReader, path: string, schema: string): Outcome<LibraryFile> {
  const { text, finding } = textOrFinding(reader, path)
  if (text === null) return { value: { value: null, source: null }, findings: finding ? [finding] : [] }
  const source = sourceText(path, text)
  const read = readYamlText(source)
  if (read.value === null) return { value: { value: null, source }, findings: read.findings }
  const fitted = fitValue(read.value, schema, path)
  return { value: { value: fitted.value, source }, findings: [...read.findings, ...fitted.findings] }
}

export function textOrFinding(
  reader: LibraryReader,
  path: string,
): { readonly text: string | null; readonly finding: Finding | null } {
  const answer = reader.readText(path)
  if (answer.kind === 'text') return { text: answer.text, finding: null }
  if (answer.kind !== 'refused') return { text: null, finding: null }
  const finding = found(fileRefused, {
    at: { file: path, start: 0, end: 0 },
    message: `${path} cannot be read: ${answer.because}`,
    advice: 'Put a readable text file there, inside the library.',
  })
  return { text: null, finding }
}
