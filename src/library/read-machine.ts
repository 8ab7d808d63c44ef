import { type Finding, found, type Outcome } from '../findings/finding.ts'
import { type BlockNode, type ScalarNode, valueAt } from '../syntax/block-node.ts'
import { nearestName } from '../text/nearest-name.ts'
import { unknownName } from './faults/faults.ts'
import type { LibraryReader } from './library-reader.ts'
import { type LibraryFile, readLibraryFile } from './read-library-file.ts'

/**
 * Reads `shared/machines/<id>.yaml`: energies, isolation points and masses, each energy and point naming only what the
 * file has. A machine that is not there is no finding; who asked for it says so.
 */
export function readMachine(reader: LibraryReader, id: string): Outcome<LibraryFile> {
  const file = readLibraryFile(reader, `shared/machines/${id}.yaml`, 'library/machine')
  const machine = file.value.value
  if (machine === null) return file
  const energies = valueAt(machine, 'energies')
  const points = valueAt(machine, 'isolation-points')
  const findings = [
    ...entries(energies).flatMap(({ value }) =>
      texts(valueAt(value, 'isolated-by')).flatMap((name) =>
        unknown(name, points, 'isolation point', 'isolation-points'),
      ),
    ),
    ...entries(points).flatMap(({ value }) =>
      texts(valueAt(value, 'energy')).flatMap((name) => unknown(name, energies, 'energy', 'energies')),
    ),
  ]
  return { value: file.value, findings: [...file.findings, ...findings] }
}

function unknown(name: ScalarNode, among: BlockNode | undefined, what: string, key: string): readonly Finding[] {
  const known = entries(among).map((entry) => entry.key)
  if (known.includes(name.text) || name.text === '??') return []
  const near = nearestName(name.text, known)
  const advice = near !== null ? `Did you mean \`${near}\`?` : `List it under \`${key}:\`.`
  return [found(unknownName, { at: name.at, message: `This machine has no ${what} \`${name.text}\`.`, advice })]
}

const entries = (node: BlockNode | undefined) => (node?.kind === 'map' ? node.entries : [])

function texts(node: BlockNode | undefined): readonly ScalarNode[] {
  if (node === undefined || node.kind === 'map') return []
  return node.kind === 'scalar' ? [node] : node.items.flatMap((item) => (item.kind === 'scalar' ? [item] : []))
}
