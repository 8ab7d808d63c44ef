import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node'
import { serve } from './serve.ts'

/** What `witnessmark lsp` hands over: the two ends of the pipe to the editor. */
export interface EditorPipe {
  readonly input: NodeJS.ReadableStream
  readonly output: NodeJS.WritableStream
  readonly version: string
}

/** Answers an editor until it closes the pipe or asks to end. Gives the exit status: 0 where it said goodbye first. */
export function main({ input, output, version }: EditorPipe): Promise<number> {
  const connection = createConnection(new StreamMessageReader(input), new StreamMessageWriter(output))
  return new Promise((finish) => {
    let saidGoodbye = false
    const served = serve(connection, version)
    connection.onShutdown(() => {
      saidGoodbye = true
      return served.close()
    })
    connection.onExit(() => finish(saidGoodbye ? 0 : 1))
    input.on('end', () => {
      void served.close().then(() => finish(saidGoodbye ? 0 : 1))
    })
    connection.listen()
  })
}
