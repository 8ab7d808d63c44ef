import { parentPort } from 'node:worker_threads'

const { runErrand } = await import(new URL('../../../out/program/cli.js', import.meta.url).href)

parentPort.on('message', async (errand) => parentPort.postMessage(await runErrand(errand)))
