import { type ChildProcess, spawn } from 'node:child_process'
import { mkdirSync, mkdtempSync, realpathSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { pathToFileURL } from 'node:url'
import {
  createMessageConnection,
  type MessageConnection,
  StreamMessageReader,
  StreamMessageWriter,
} from 'vscode-jsonrpc/node'
import { root } from '../../house/source-files.ts'

export interface Position {
  readonly line: number
  readonly character: number
}

export interface Diagnostic {
  readonly code: string
  readonly severity: number
  readonly message: string
  readonly range: { readonly start: Position; readonly end: Position }
}

/** An editor at the other end of the pipe to the compiled command, over a library in a folder of its own. */
export interface Editor {
  readonly folder: string
  readonly connection: MessageConnection
  readonly server: ChildProcess
  readonly uri: (file: string) => string
  readonly ask: <Answer>(method: string, params: unknown) => Promise<Answer>
  readonly open: (file: string, text: string) => Promise<readonly Diagnostic[]>
  /** Replaces the whole text. */
  readonly type: (file: string, text: string) => Promise<readonly Diagnostic[]>
  /** The next findings that are told for a file. */
  readonly told: (file: string) => Promise<readonly Diagnostic[]>
  readonly exited: Promise<number | null>
  readonly stderr: () => string
  readonly remove: () => void
}

export async function startEditor(files: Readonly<Record<string, string>>, capabilities: object = {}): Promise<Editor> {
  const folder = realpathSync(mkdtempSync(join(tmpdir(), 'witnessmark-lsp-')))
  for (const [file, text] of Object.entries(files)) {
    mkdirSync(dirname(join(folder, file)), { recursive: true })
    writeFileSync(join(folder, file), text)
  }
  const server = spawn(process.execPath, [join(root, 'src/doors/cli/witnessmark.mjs'), 'lsp'], { cwd: folder })
  const exited = new Promise<number | null>((done) => server.on('exit', done))
  let errors = ''
  server.stderr.on('data', (data) => {
    errors += data
  })
  const connection = createMessageConnection(
    new StreamMessageReader(server.stdout),
    new StreamMessageWriter(server.stdin),
  )
  const waiting = new Map<string, ((found: readonly Diagnostic[]) => void)[]>()
  connection.onNotification('textDocument/publishDiagnostics', ({ uri, diagnostics }) => {
    const asked = waiting.get(uri) ?? []
    waiting.delete(uri)
    for (const done of asked) done(diagnostics)
  })
  connection.onError(() => {})
  connection.listen()
  const uri = (file: string) => pathToFileURL(join(folder, file)).href
  const told = (file: string) =>
    new Promise<readonly Diagnostic[]>((done) => waiting.set(uri(file), [...(waiting.get(uri(file)) ?? []), done]))
  let version = 1
  await connection.sendRequest('initialize', {
    processId: process.pid,
    rootUri: pathToFileURL(folder).href,
    capabilities,
  })
  await connection.sendNotification('initialized', {})
  return {
    folder,
    connection,
    server,
    uri,
    ask: (method, params) => connection.sendRequest(method, params),
    told,
    open: (file, text) => {
      const next = told(file)
      void connection.sendNotification('textDocument/didOpen', {
        textDocument: { uri: uri(file), languageId: 'markdown', version, text },
      })
      return next
    },
    type: (file, text) => {
      const next = told(file)
      version++
      void connection.sendNotification('textDocument/didChange', {
        textDocument: { uri: uri(file), version },
        contentChanges: [{ text }],
      })
      return next
    },
    exited,
    stderr: () => errors,
    remove: () => {
      connection.dispose()
      if (server.exitCode === null) server.kill()
      rmSync(folder, { recursive: true, force: true })
    },
  }
}

/** Line and UTF-16 column of an offset. */
export function positionAt(text: string, offset: number): Position {
  const before = text.slice(0, offset)
  const line = before.split('\n').length - 1
  return { line, character: offset - (before.lastIndexOf('\n') + 1) }
}

export interface TextEdit {
  readonly range: { readonly start: Position; readonly end: Position }
  readonly newText: string
}

/** What an editor makes of a text and the edits it was sent. */
export function edited(text: string, edits: readonly TextEdit[]): string {
  const lines = text.split('\n')
  const offsetOf = ({ line, character }: Position) =>
    lines.slice(0, line).reduce((sum, words) => sum + words.length + 1, 0) + character
  const ordered = edits.map(({ range, newText }) => ({ from: offsetOf(range.start), to: offsetOf(range.end), newText }))
  ordered.sort((a, b) => b.from - a.from)
  return ordered.reduce((so, { from, to, newText }) => so.slice(0, from) + newText + so.slice(to), text)
}
