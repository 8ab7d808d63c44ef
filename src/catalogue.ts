import { kindsOfChecks } from './checks/list.ts'
import type { FaultKind } from './findings/finding.ts'
import * as libraryFaults from './library/faults/faults.ts'
import * as modelFaults from './model/faults/faults.ts'
import * as syntaxFaults from './syntax/faults/faults.ts'
import * as schemaFaults from './syntax/schema-faults.ts'

/** Every kind of finding that the compiler can report, in the order of the stages, then by name. */
export const catalogue: readonly FaultKind[] = [
  ...kindsIn(syntaxFaults),
  ...kindsIn(schemaFaults),
  ...kindsIn(libraryFaults),
  ...kindsIn(modelFaults),
  ...[...kindsOfChecks].sort(byName),
]

/** The kinds that a module of them declares. */
function kindsIn(module: Readonly<Record<string, unknown>>): readonly FaultKind[] {
  return Object.values(module).filter(isKind).sort(byName)
}

function isKind(value: unknown): value is FaultKind {
  return typeof value === 'object' && value !== null && 'name' in value && 'severity' in value && 'title' in value
}

function byName(a: FaultKind, b: FaultKind): number {
  return a.name < b.name ? -1 : a.name > b.name ? 1 : 0
}
