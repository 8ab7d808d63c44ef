import type { LibraryReader } from '../../library/library-reader.ts'
import { readMachine } from '../../library/read-machine.ts'
import { valueAt } from '../../syntax/block-node.ts'
import type { MachineFacts } from './questions.ts'

/** Machines of a library by the names of their files. */
export function machinesOf(library: LibraryReader): readonly string[] {
  return library
    .listFolder('shared/machines')
    .filter((path) => path.endsWith('.yaml'))
    .map((path) => path.slice('shared/machines/'.length, -'.yaml'.length))
}

/** What a procedure has to answer of a machine; null where its file cannot be read. */
export function machineFacts(library: LibraryReader, id: string): MachineFacts | null {
  const machine = readMachine(library, id).value.value
  if (machine === null) return null
  const energies = valueAt(machine, 'energies')
  const points = valueAt(machine, 'isolation-points')
  return {
    id,
    energies: (energies?.kind === 'map' ? energies.entries : []).map(({ key, value }) => {
      const kind = valueAt(value, 'kind')
      return { id: key, kind: kind?.kind === 'scalar' ? kind.text : '' }
    }),
    isolationPoints: (points?.kind === 'map' ? points.entries : []).map(({ key }) => key),
  }
}
