import {
  type CancellationToken,
  type Connection,
  type DocumentHighlight,
  ErrorCodes,
  type FoldingRange,
  type InitializeParams,
  type Location,
  LSPErrorCodes,
  ResponseError,
  type TextDocumentPositionParams,
} from 'vscode-languageserver/node'
import { faultPages } from '#generated/fault-pages'
import type { Place } from '../../text/place.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { completions } from '../../writing/completions.ts'
import { foldings } from '../../writing/foldings.ts'
import { formatChanges } from '../../writing/format/format-procedure.ts'
import { hoverAt } from '../../writing/hover.ts'
import { definitionOf, referencesOf } from '../../writing/names/find-names.ts'
import { renameableAt, renameEdits } from '../../writing/names/rename.ts'
import { outline } from '../../writing/outline.ts'
import { semanticMarks } from '../../writing/semantic-marks.ts'
import { codeActions } from './code-actions.ts'
import { completionItem } from './completion-items.ts'
import { isProcedure, type Libraries } from './libraries.ts'
import type { OpenDocument, OpenDocuments } from './open-documents.ts'
import { offsetOf, rangeIn, rangeOf } from './ranges.ts'
import { documentSymbols, flatSymbols } from './symbols.ts'
import { tokensOf } from './tokens.ts'

interface Answering {
  readonly connection: Connection
  readonly documents: OpenDocuments
  readonly libraries: Libraries
  /** What the editor said that it can do. */
  readonly capabilities: () => InitializeParams['capabilities']
}

/** One answer a question; a question about a file that is not open, or that is no procedure, gets the empty answer. */
export function answerQuestions({ connection, documents, libraries, capabilities }: Answering): void {
  /** The open procedure that a question is about. */
  const asked = (
    params: { readonly textDocument?: { readonly uri?: unknown } } | null | undefined,
  ): OpenDocument | null => {
    const uri = params?.textDocument?.uri
    const document = typeof uri === 'string' ? documents.get(uri) : null
    return document !== null && isProcedure(document.file) ? document : null
  }
  const guarded =
    <Params extends Parameters<typeof asked>[0], Answer>(
      empty: Answer,
      answer: (document: OpenDocument, params: Params) => Answer,
    ) =>
    (params: Params, token: CancellationToken): Answer | ResponseError => {
      if (token.isCancellationRequested)
        return new ResponseError(LSPErrorCodes.RequestCancelled, 'Nobody waits for it any more.')
      const document = asked(params)
      if (document === null) return empty
      try {
        return answer(document, params)
      } catch (error) {
        if (error instanceof ResponseError) return error
        const reason = error instanceof Error ? error.message : String(error)
        return new ResponseError(ErrorCodes.InternalError, `witnessmark itself failed (${reason}).`)
      }
    }
  const offsetIn = (document: OpenDocument, params: TextDocumentPositionParams) =>
    offsetOf(document.document, params.position)
  const locationOf = (document: OpenDocument, place: Place): Location => ({
    uri: libraries.uriOf(document.root, place.file),
    range: rangeIn(textOfFile(document, place.file), place),
  })
  const textOfFile = (document: OpenDocument, file: string): SourceText => {
    const opened = documents.read(document)
    if (file === document.file) return opened.source
    const answer = opened.library.reader.readText(file)
    return sourceText(file, answer.kind === 'text' ? answer.text : '')
  }

  connection.onCompletion(
    guarded(
      { isIncomplete: false, items: [] as ReturnType<typeof completionItem>[] },
      (document, params: TextDocumentPositionParams) => {
        const canSnippets = capabilities().textDocument?.completion?.completionItem?.snippetSupport === true
        const suggestions = completions(documents.read(document), offsetIn(document, params))
        const items = suggestions.map((suggestion, index) =>
          completionItem(document.document, suggestion, index, canSnippets),
        )
        return { isIncomplete: false, items }
      },
    ),
  )
  connection.onHover(
    guarded(null as null | object, (document, params: TextDocumentPositionParams) => {
      const { findings } = documents.look(document)
      const hover = hoverAt(documents.read(document), offsetIn(document, params), { findings, pages: faultPages })
      if (hover === null) return null
      const range = rangeOf(document.document, hover.start, hover.end)
      return { contents: { kind: 'markdown', value: hover.markdown }, range }
    }) as Parameters<Connection['onHover']>[0],
  )
  connection.onDefinition(
    guarded([] as Location[], (document, params: TextDocumentPositionParams) =>
      definitionOf(documents.read(document), offsetIn(document, params)).map((place) => locationOf(document, place)),
    ),
  )
  connection.onReferences(
    guarded([] as Location[], (document, params: TextDocumentPositionParams) =>
      referencesOf(documents.read(document), offsetIn(document, params)).map((place) => locationOf(document, place)),
    ),
  )
  connection.onDocumentHighlight(
    guarded([] as DocumentHighlight[], (document, params: TextDocumentPositionParams) =>
      referencesOf(documents.read(document), offsetIn(document, params)).map(({ start, end }) => ({
        range: rangeOf(document.document, start, end),
      })),
    ),
  )
  connection.onPrepareRename(
    guarded(
      null as null | { range: ReturnType<typeof rangeOf>; placeholder: string },
      (document, params: TextDocumentPositionParams) => {
        const name = renameableAt(documents.read(document), offsetIn(document, params))
        if (name.kind === 'refused') throw new ResponseError(LSPErrorCodes.RequestFailed, name.because)
        return { range: rangeOf(document.document, name.start, name.end), placeholder: name.name }
      },
    ),
  )
  connection.onRenameRequest(
    guarded(null as null | object, (document, params: TextDocumentPositionParams & { readonly newName?: unknown }) => {
      const newName = typeof params.newName === 'string' ? params.newName : ''
      const renaming = renameEdits(documents.read(document), offsetIn(document, params), newName)
      if (renaming.kind === 'refused') throw new ResponseError(LSPErrorCodes.RequestFailed, renaming.because)
      const edits = renaming.changes.map(({ at, newText }) => ({
        range: rangeOf(document.document, at.start, at.end),
        newText,
      }))
      return { changes: { [document.uri]: edits } }
    }) as Parameters<Connection['onRenameRequest']>[0],
  )
  connection.onDocumentSymbol(
    guarded([] as ReturnType<typeof documentSymbols> | ReturnType<typeof flatSymbols>, (document) => {
      const entries = outline(documents.read(document))
      const canNest = capabilities().textDocument?.documentSymbol?.hierarchicalDocumentSymbolSupport === true
      return canNest ? documentSymbols(document.document, entries) : flatSymbols(document.document, entries)
    }),
  )
  connection.onFoldingRanges(
    guarded([] as FoldingRange[], (document) =>
      foldings(documents.read(document)).map(({ start, end }) => ({
        startLine: document.document.positionAt(start).line,
        endLine: document.document.positionAt(end).line,
      })),
    ),
  )
  connection.languages.semanticTokens.on(
    guarded({ data: [] as number[] }, (document) =>
      tokensOf(document.document, semanticMarks(documents.read(document))),
    ),
  )
  connection.onDocumentFormatting(
    guarded([] as { range: ReturnType<typeof rangeOf>; newText: string }[], (document) =>
      formatChanges(document.file, document.document.getText()).map(({ at, newText }) => ({
        range: rangeOf(document.document, at.start, at.end),
        newText,
      })),
    ),
  )
  connection.onCodeAction((params, token) =>
    guarded([] as ReturnType<typeof codeActions>, (document) => {
      const { findings, sources } = documents.look(document)
      const start = offsetOf(document.document, params.range?.start)
      const end = offsetOf(document.document, params.range?.end)
      return codeActions({
        findings,
        sources,
        file: document.file,
        start,
        end,
        only: params.context?.only ?? null,
        uriOf: (file) => libraries.uriOf(document.root, file),
      })
    })(params, token),
  )
}
