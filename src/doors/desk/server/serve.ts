import { randomBytes } from 'node:crypto'
import { existsSync, statSync } from 'node:fs'
import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { join } from 'node:path'
import { findLibraryRoot } from '../../../devices/find-library-root.ts'
import type { News } from '../wire.ts'
import { answer } from './answers.ts'
import type { Desk } from './desk.ts'
import { askedFor } from './gate.ts'
import { type ProcedureShelf, removeCutOffSaves } from './procedure-files.ts'
import { folderOfProcedures, procedureFiles } from './procedure-list.ts'
import { nothing } from './respond.ts'
import { watchFiles } from './watch-files.ts'
import { openWorkplace } from './workplace.ts'

export interface DeskOptions {
  /** The library, or a folder in one. */
  readonly folder: string
  /** 0: any that is free. */
  readonly port: number
}

export interface RunningDesk {
  /** With the token: who has it may read and write the procedures of this library. */
  readonly address: string
  readonly close: () => Promise<void>
}

/** Serves the desk on this machine only. Rejects where the folder is none or the port is taken. */
export async function serveDesk({ folder, port }: DeskOptions): Promise<RunningDesk> {
  if (!existsSync(folder) || !statSync(folder).isDirectory()) throw new Error(`${folder} is no folder.`)
  const root = findLibraryRoot(join(folder, 'any.md'))
  const workplace = openWorkplace(root)
  const below = folderOfProcedures(root, folder)
  const shelf: ProcedureShelf = {
    root,
    reader: workplace.reader,
    folder: below,
    files: () => procedureFiles(root, below),
  }
  removeCutOffSaves(shelf, Date.now())
  const happened: News[] = []
  const desk: Desk = { shelf, workplace, happened }
  const token = randomBytes(24).toString('base64url')
  const server = createServer((request, response) => {
    const asked = askedFor(request, { port: (server.address() as AddressInfo).port, token })
    if (asked === null) return nothing(response)
    answer(desk, asked, request, response).catch((error) => {
      if (!response.headersSent) nothing(response, 500)
      process.stderr.write(`The desk could not answer (${error instanceof Error ? error.message : error}).\n`)
    })
  })
  await new Promise<void>((listening, failed) => {
    server.once('error', failed)
    server.listen(port, '127.0.0.1', listening)
  })
  const stopWatching = watchFiles(root, below, (news) => {
    if (news.kind === 'library') workplace.forget()
    happened.push(news)
  })
  return {
    address: `http://127.0.0.1:${(server.address() as AddressInfo).port}/${token}/`,
    close: async () => {
      await stopWatching()
      const closed = new Promise((done) => server.close(done))
      server.closeAllConnections()
      await closed
    },
  }
}
