import type { TextDocument } from 'vscode-languageserver-textdocument'
import { type CompileMemory, compileProcedure, newMemory } from '../../compile.ts'
import type { Finding } from '../../findings/finding.ts'
import { fitFragment } from '../../syntax/fit-schema.ts'
import { readFragment } from '../../syntax/read-fragment.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { type OpenText, openText } from '../../writing/open-text.ts'
import { isProcedure, isShared, type Libraries, type Whereabouts } from './libraries.ts'

/** A document that is open in the editor, with what was made of its present text. */
export interface OpenDocument extends Whereabouts {
  readonly uri: string
  readonly document: TextDocument
  readonly memory: CompileMemory
  opened: OpenText | null
  told: Told | null
}

/** What is wrong with a document and what it rests on. */
export interface Told {
  readonly findings: readonly Finding[]
  readonly sources: readonly SourceText[]
}

export interface OpenDocuments {
  readonly get: (uri: string) => OpenDocument | null
  readonly all: () => readonly OpenDocument[]
  /** A document was opened or typed into. */
  readonly update: (document: TextDocument) => OpenDocument | null
  readonly close: (uri: string) => OpenDocument | null
  /** What was made of the documents of a library counts no more. */
  readonly forget: (root: string) => void
  readonly read: (document: OpenDocument) => OpenText
  readonly look: (document: OpenDocument) => Told
}

export function openDocuments(libraries: Libraries): OpenDocuments {
  const documents = new Map<string, OpenDocument>()
  const forget = (root: string): void => {
    for (const document of documents.values())
      if (document.root === root) Object.assign(document, { told: null, opened: null })
  }
  const read = (document: OpenDocument): OpenText => {
    document.opened ??= openText(document.file, document.document.getText(), libraries.open(document.root))
    return document.opened
  }
  return {
    get: (uri) => documents.get(uri) ?? null,
    all: () => [...documents.values()],
    update: (document) => {
      const where = libraries.locate(document.uri)
      if (where === null) return null
      const before = documents.get(document.uri)
      const text = document.getText()
      libraries.setText(where, text)
      if (isShared(where.file)) forget(where.root)
      const kept = before?.opened
      const opened = kept == null ? null : openText(where.file, text, libraries.open(where.root), kept)
      const memory = before?.memory ?? newMemory()
      const now: OpenDocument = { ...where, uri: document.uri, document, memory, opened, told: null }
      documents.set(document.uri, now)
      return now
    },
    close: (uri) => {
      const document = documents.get(uri) ?? null
      if (document === null) return null
      documents.delete(uri)
      libraries.setText(document, null)
      if (isShared(document.file)) forget(document.root)
      return document
    },
    forget,
    read,
    look: (document) => {
      document.told ??= lookAt(document, libraries)
      return document.told
    },
  }
}

function lookAt(document: OpenDocument, libraries: Libraries): Told {
  const { file, root, memory } = document
  const library = libraries.open(root)
  if (
    isProcedure(file) &&
    isMeantAsProcedure(document.document.getText(), library.reader.readText('witnessmark.yaml').kind)
  ) {
    const { findings, sources } = compileProcedure(file, library, memory)
    return { findings, sources: [...sources, ...library.sources] }
  }
  if (!file.startsWith('shared/fragments/') || !file.endsWith('.md'))
    return { findings: library.findings, sources: library.sources }
  const source = sourceText(file, document.document.getText())
  const written = readFragment(source)
  const fitted = fitFragment(written.value)
  return { findings: [...written.findings, ...fitted.findings], sources: [source] }
}

/** Outside a library, a Markdown file that does not begin with front matter is somebody's notes. */
function isMeantAsProcedure(text: string, settings: 'text' | 'bytes' | 'missing' | 'refused'): boolean {
  return settings !== 'missing' || /^\uFEFF?\s*---\s*$/m.test(text.slice(0, 200))
}
