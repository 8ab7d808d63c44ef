import {
  CodeActionKind,
  type Connection,
  type InitializeParams,
  type InitializeResult,
  TextDocumentSyncKind,
  TextDocuments,
} from 'vscode-languageserver/node'
import { TextDocument } from 'vscode-languageserver-textdocument'
import { answerQuestions } from './answers.ts'
import { diagnosticOf, withoutTwins } from './diagnostics.ts'
import { isShared, openLibraries } from './libraries.ts'
import { type OpenDocument, openDocuments } from './open-documents.ts'
import { tokenLegend } from './tokens.ts'

/** Somebody who types is not interrupted; who pauses is answered. Milliseconds. */
const pause = 60

export interface Served {
  readonly close: () => Promise<void>
}

/** Answers everything that an editor asks over a connection. */
export function serve(connection: Connection, version: string): Served {
  const libraries = openLibraries((root) => {
    documents.forget(root)
    lookSoon(documents.all().filter((document) => document.root === root))
  })
  const documents = openDocuments(libraries)
  const texts = new TextDocuments(TextDocument)
  const waiting = new Map<string, OpenDocument>()
  let timer: NodeJS.Timeout | null = null
  let capabilities: InitializeParams['capabilities'] = {}

  const lookSoon = (some: readonly OpenDocument[]): void => {
    for (const document of some) waiting.set(document.uri, document)
    if (timer !== null) clearTimeout(timer)
    timer = setTimeout(lookNow, pause)
  }
  const lookNow = (): void => {
    timer = null
    const [next] = waiting.keys()
    if (next === undefined) return
    waiting.delete(next)
    const document = documents.get(next)
    if (document !== null) publish(document)
    // One document at a time, so that what is typed meanwhile is heard.
    if (waiting.size > 0) timer = setTimeout(lookNow, 0)
  }
  const publish = (document: OpenDocument): void => {
    try {
      documents.look(document)
    } catch (error) {
      connection.console.error(`${document.file} could not be looked at: ${messageOf(error)}`)
      return
    }
    const { root } = document
    const others = documents
      .all()
      .filter((other) => other.root === root && (other.uri === document.uri || isShared(other.file)))
    for (const other of others) sendFindings(other)
  }
  const sendFindings = (document: OpenDocument): void => {
    const { root, file, uri } = document
    const told = documents.all().flatMap((other) => (other.root === root && other.told !== null ? [other.told] : []))
    const library = libraries.open(root)
    const sources = [...told.flatMap((one) => one.sources), ...library.sources]
    const findings = withoutTwins([...told.flatMap((one) => one.findings), ...library.findings]).filter(
      ({ at }) => at.file === file,
    )
    const diagnostics = findings.map((finding) => diagnosticOf(finding, sources, (path) => libraries.uriOf(root, path)))
    void connection.sendDiagnostics({ uri, version: document.document.version, diagnostics })
  }

  connection.onInitialize((asked): InitializeResult => {
    capabilities = asked.capabilities ?? {}
    return { capabilities: whatIsAnswered, serverInfo: { name: 'witnessmark', version } }
  })
  texts.onDidChangeContent(({ document }) => {
    const known = documents.update(document)
    if (known === null) return
    lookSoon(isShared(known.file) ? documents.all().filter(({ root }) => root === known.root) : [known])
  })
  texts.onDidClose(({ document }) => {
    const closed = documents.close(document.uri)
    if (closed === null) return
    waiting.delete(closed.uri)
    void connection.sendDiagnostics({ uri: closed.uri, diagnostics: [] })
    if (isShared(closed.file)) lookSoon(documents.all().filter(({ root }) => root === closed.root))
  })
  connection.onDidChangeWatchedFiles(({ changes }) => {
    for (const { uri } of changes ?? []) {
      const where = libraries.locate(uri)
      if (where === null || !isShared(where.file)) continue
      libraries.forget(where.root)
      documents.forget(where.root)
      lookSoon(documents.all().filter(({ root }) => root === where.root))
    }
  })
  answerQuestions({ connection, documents, libraries, capabilities: () => capabilities })
  texts.listen(connection)

  return {
    close: () => {
      if (timer !== null) clearTimeout(timer)
      return libraries.close()
    },
  }
}

const whatIsAnswered: InitializeResult['capabilities'] = {
  positionEncoding: 'utf-16',
  textDocumentSync: { openClose: true, change: TextDocumentSyncKind.Incremental, save: false },
  completionProvider: { triggerCharacters: [':', ' ', ',', '{', '[', '#', '=', '*', '`', '"'] },
  hoverProvider: true,
  definitionProvider: true,
  referencesProvider: true,
  documentHighlightProvider: true,
  renameProvider: { prepareProvider: true },
  documentSymbolProvider: true,
  foldingRangeProvider: true,
  documentFormattingProvider: true,
  codeActionProvider: { codeActionKinds: [CodeActionKind.QuickFix, CodeActionKind.SourceFixAll] },
  semanticTokensProvider: { legend: tokenLegend, full: true },
}

export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error))
