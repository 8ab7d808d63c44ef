import { buildGraph } from '../src/flow/build-graph.ts'
import { proveFlow } from '../src/flow/prove-flow.ts'
import { resolveProcedure } from '../src/model/resolve-procedure.ts'
import { makeStepFile } from '../src/step-file/make-step-file.ts'
import type { StepFile } from '../src/step-file/step-file.ts'
import { fitProcedure } from '../src/syntax/fit-schema.ts'
import { readProcedure } from '../src/syntax/read-procedure.ts'
import { sourceText } from '../src/text/source-text.ts'
import { mapLibrary } from './map-library.ts'

/** The step file of a text whether or not a check would let it pass. */
export function stepFileUnchecked(text: string): StepFile {
  const written = fitProcedure(readProcedure(sourceText('procedures/example/example.md', text)).value).value
  const none = new Map()
  const { value } = resolveProcedure(written, {
    library: mapLibrary({}),
    defaults: { site: null, printUnits: ['metric', 'inch'], language: 'en' },
    catalogues: { tools: none, instruments: none, gear: none, ppe: none, hazards: none, roles: none },
    fragments: { ids: [], read: () => ({ value: null, findings: [] }) },
    machine: () => ({ value: null, findings: [] }),
  })
  const procedure = { ...value, graph: buildGraph(value) }
  return makeStepFile(procedure, proveFlow(procedure), [], [])
}
