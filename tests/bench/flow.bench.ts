import { setFlagsFromString } from 'node:v8'
import { runInNewContext } from 'node:vm'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import { procedureFrom } from '../flow/procedure-of.ts'
import { procedureOfShape } from './flow-shapes.ts'

const SHAPES = [
  { steps: 200, states: 20, decisions: 10, repeats: 3 },
  { steps: 500, states: 20, decisions: 10, repeats: 3 },
  { steps: 1000, states: 20, decisions: 10, repeats: 3 },
  { steps: 2000, states: 20, decisions: 20, repeats: 6 },
]
const ROUNDS = 5
/** Milliseconds that the first shape should stay under on a quiet machine. */
const TARGET = 100

setFlagsFromString('--expose-gc')
const collect = runInNewContext('gc') as () => void
/** Megabytes on the heap and in buffers. */
const memory = (): number => {
  const { heapUsed, arrayBuffers } = process.memoryUsage()
  return (heapUsed + arrayBuffers) / 1e6
}

console.log(
  '| steps | states | decisions | repeats | situations | verdict | median, ms | processor, ms | target, ms | grown by, MB |',
)
console.log('|---|---|---|---|---|---|---|---|---|---|')
for (const [index, shape] of SHAPES.entries()) {
  const { procedure } = procedureFrom(procedureOfShape(shape))
  collect()
  const empty = memory()
  proveFlow(procedure)
  // What one run leaves behind before anything is collected: as much as it needs, or more.
  const grown = (memory() - empty).toFixed(0)
  const times: number[] = []
  const processor: number[] = []
  let proof = proveFlow(procedure)
  for (let round = 0; round < ROUNDS; round++) {
    const before = process.cpuUsage()
    const start = performance.now()
    proof = proveFlow(procedure)
    times.push(performance.now() - start)
    processor.push(process.cpuUsage(before).user / 1000)
  }
  const { steps, states, decisions, repeats } = shape
  const figures = [steps, states, decisions, repeats, proof.situations, proof.verdict]
  const target = index === 0 ? String(TARGET) : ''
  console.log(`| ${[...figures, middle(times), middle(processor), target, grown].join(' | ')} |`)
}

function middle(values: readonly number[]): string {
  const sorted = [...values].sort((a, b) => a - b)
  return (sorted[Math.floor(sorted.length / 2)] ?? 0).toFixed(0)
}
