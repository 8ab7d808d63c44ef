import { resolve } from 'node:path'
import { exitStatus } from './exit-status.ts'
import type { Surroundings } from './surroundings.ts'

export interface DeskOptions {
  /** As typed. */
  readonly port: string
  /** False with `--no-browser`. */
  readonly browser: boolean
}

/** What `out/program/desk.js` is given; it stands by itself, so that no other command reads the editor in. */
interface DeskProgram {
  readonly main: (command: {
    readonly folder: string
    readonly port: number
    readonly openBrowser: boolean
    readonly say: (text: string) => void
  }) => Promise<number>
}

/** `witnessmark desk`: opens the desk over a library and stays until Ctrl-C. */
export async function desk(folder: string, options: DeskOptions, surroundings: Surroundings): Promise<number> {
  const port = /^\d{1,5}$/.test(options.port) ? Number(options.port) : -1
  if (port < 0 || port > 65535) {
    surroundings.say(`“${options.port}” is no port. A port is a number up to 65535; 0 takes any that is free.\n`)
    return exitStatus({ wrongUse: true, failed: false })
  }
  const program: DeskProgram = await import(new URL('./desk.js', import.meta.url).href)
  const { say } = surroundings
  return program.main({ folder: resolve(surroundings.folder, folder), port, openBrowser: options.browser, say })
}
