import { openBrowser } from './server/open-browser.ts'
import { serveDesk } from './server/serve.ts'

export interface DeskCommand {
  readonly folder: string
  readonly port: number
  readonly openBrowser: boolean
  readonly say: (text: string) => void
}

/** `witnessmark desk`: serves the desk until Ctrl-C. Gives the exit status. */
export async function main(command: DeskCommand): Promise<number> {
  try {
    const desk = await serveDesk(command)
    command.say(
      `The desk is open at\n  ${desk.address}\nOnly this computer can reach it. Keep the address to yourself. Ctrl-C closes the desk.\n`,
    )
    if (command.openBrowser) openBrowser(desk.address)
    await new Promise<void>((ended) => {
      process.once('SIGINT', ended)
      process.once('SIGTERM', ended)
    })
    await desk.close()
    command.say('The desk is closed.\n')
    return 0
  } catch (error) {
    const code = error instanceof Error && 'code' in error ? error.code : ''
    const reason = error instanceof Error ? error.message : String(error)
    command.say(
      code === 'EADDRINUSE' || code === 'EACCES'
        ? `The desk could not be opened on port ${command.port}: it is taken. Name another with --port, or leave it out.\n`
        : `The desk could not be opened: ${reason}\n`,
    )
    return 2
  }
}
