import { createServer } from 'node:http'
import type { AddressInfo } from 'node:net'
import { describe, expect, it } from 'vitest'
import { desk } from '../../../src/doors/cli/desk.ts'
import { main } from '../../../src/doors/desk/main.ts'
import { makeLibrary } from './a-desk.ts'

describe('the command desk', () => {
  it('says what is no port', async () => {
    const said: string[] = []
    const surroundings = {
      folder: '.',
      print: () => {},
      say: (text: string) => said.push(text),
      isTerminal: false,
      columns: null,
      noColour: true,
      now: () => 0,
    }
    expect(await desk('.', { port: 'high', browser: false }, surroundings)).toBe(2)
    expect(await desk('.', { port: '70000', browser: false }, surroundings)).toBe(2)
    expect(said.join('')).toContain('“high” is no port.')
  })

  it('says that a port is taken, or that there is no such folder', async () => {
    const taken = createServer()
    await new Promise<void>((listening) => taken.listen(0, '127.0.0.1', listening))
    const { port } = taken.address() as AddressInfo
    const said: string[] = []
    const say = (text: string) => said.push(text)
    const folder = makeLibrary({})
    expect(await main({ folder, port, openBrowser: false, say })).toBe(2)
    expect(await main({ folder: `${folder}/none`, port: 0, openBrowser: false, say })).toBe(2)
    expect(said[0]).toContain(`port ${port}: it is taken`)
    expect(said[1]).toContain('is no folder.')
    taken.close()
  })

  it('prints its address and ends when it is told to', async () => {
    const said: string[] = []
    const running = main({ folder: makeLibrary({}), port: 0, openBrowser: false, say: (text) => said.push(text) })
    while (said.length === 0) await new Promise((waited) => setTimeout(waited, 20))
    expect(said[0]).toMatch(/http:\/\/127\.0\.0\.1:\d+\/[\w-]{32}\/\n/)
    process.emit('SIGTERM')
    expect(await running).toBe(0)
    expect(said.at(-1)).toBe('The desk is closed.\n')
  })
})
