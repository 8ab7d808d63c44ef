import process from 'node:process'
import { createConnection, StreamMessageReader, StreamMessageWriter } from 'vscode-languageserver/node'
import { serve } from './serve.ts'

/**
 * `witnessmark lsp`: answers an editor over standard input and output until it closes the pipe or asks to end.
 * Gives the exit status: 0 where the editor said goodbye first.
 */
export function main(version: string): Promise<number> {
  const { stdin: input, stdout: output } = process
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
      // The protocol's library goes on looking whether the editor still runs, and would keep this process alive for that.
      void served.close().then(() => process.exit(saidGoodbye ? 0 : 1))
    })
    connection.listen()
  })
}
