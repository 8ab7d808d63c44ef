#!/usr/bin/env node
import { existsSync } from 'node:fs'
import { availableParallelism } from 'node:os'
import process from 'node:process'
import { fileURLToPath } from 'node:url'

const compiled = new URL('../../../out/program/cli.js', import.meta.url)

process.stdout.on('error', (error) => {
  // `witnessmark check … | head` closes the pipe early; that is no fault.
  if (error.code === 'EPIPE') process.exit()
  process.stderr.write(`What was found could not be printed (${error.code}).\n`)
  process.exit(1)
})

if (existsSync(fileURLToPath(compiled))) {
  const { main } = await import(compiled.href)
  const worker = { script: new URL('./output-worker.mjs', import.meta.url), count: Math.min(4, availableParallelism()) }
  const surroundings = {
    folder: process.cwd(),
    print: (text) => process.stdout.write(text),
    say: (text) => process.stderr.write(text),
    ...(process.stderr.isTTY && process.env.TERM !== 'dumb' ? { paintOver: (text) => process.stderr.write(text) } : {}),
    isTerminal: process.stdout.isTTY === true,
    columns: process.stdout.columns ?? null,
    noColour: Boolean(process.env.NO_COLOR) || process.env.TERM === 'dumb',
    now: Date.now,
  }
  process.exitCode = await main(process.argv.slice(2), surroundings, worker)
} else {
  process.stderr.write('witnessmark is not compiled yet: run “npm start” in its folder first.\n')
  process.exitCode = 2
}
