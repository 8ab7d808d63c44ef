import { Worker } from 'node:worker_threads'
import type { StepFile } from '../../step-file/step-file.ts'
import { makeOutputs } from './make-outputs.ts'
import type { Hands, MadeOutputs, OutputChoices } from './program.ts'

/** What a worker is handed, and what it gives back. */
export interface Errand {
  readonly id: number
  readonly stepFile: StepFile
  readonly choices: OutputChoices
}

export type ErrandDone =
  | { readonly id: number; readonly made: MadeOutputs }
  | { readonly id: number; readonly failed: string }

interface Waiting {
  readonly errand: Errand
  readonly done: (made: MadeOutputs) => void
  readonly fail: (error: Error) => void
}

/** Workers that run `script`, each with a typesetter of its own; the same outputs, byte for byte, as without them. */
export function hireHands(script: URL, count: number): Hands {
  const queue: Waiting[] = []
  const busy = new Map<Worker, Waiting>()
  const hand = (worker: Worker): void => {
    const next = queue.shift()
    if (next === undefined) return
    busy.set(worker, next)
    worker.postMessage(next.errand)
  }
  /** A worker that fell over takes nobody else's work with it: the rest is shared by the others, or made here where none is left. */
  const lost = (worker: Worker, error: Error): void => {
    const at = workers.indexOf(worker)
    if (at === -1) return
    workers.splice(at, 1)
    busy.get(worker)?.fail(error)
    busy.delete(worker)
    if (workers.length > 0) return
    for (const { errand, done, fail } of queue.splice(0)) makeOutputs(errand.stepFile, errand.choices).then(done, fail)
  }
  const workers = Array.from({ length: count }, () => {
    const worker = new Worker(script)
    worker.on('message', (answer: ErrandDone) => {
      const waiting = busy.get(worker)
      busy.delete(worker)
      if (waiting !== undefined && 'made' in answer) waiting.done(answer.made)
      else waiting?.fail(new Error('failed' in answer ? answer.failed : 'no answer'))
      hand(worker)
    })
    worker.on('error', (error: Error) => lost(worker, error))
    worker.on('exit', () => lost(worker, new Error('a worker ended before its time')))
    return worker
  })
  let errands = 0
  return {
    makeOutputs: (stepFile, choices) => {
      if (workers.length === 0) return makeOutputs(stepFile, choices)
      return new Promise((done, fail) => {
        queue.push({ errand: { id: errands++, stepFile, choices }, done, fail })
        const free = workers.find((worker) => !busy.has(worker))
        if (free !== undefined) hand(free)
      })
    },
    letGo: async () => {
      await Promise.all(workers.splice(0).map((worker) => worker.terminate()))
    },
  }
}

/** What a worker does with an errand. */
export async function runErrand({ id, stepFile, choices }: Errand): Promise<ErrandDone> {
  try {
    return { id, made: await makeOutputs(stepFile, choices) }
  } catch (error) {
    return { id, failed: error instanceof Error ? error.message : String(error) }
  }
}
