import { compileProcedure, openLibrary } from '../../src/compile.ts'
import type { FlowProof } from '../../src/flow/proof.ts'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import type { Procedure } from '../../src/model/procedure.ts'
import { mapLibrary } from '../map-library.ts'
import { exploreNaively, type NaiveResult } from './naive-explorer.ts'
import { procedureOf } from './procedure-of.ts'

const FILE = 'procedures/example/example.md'

export function wholeText(text: string, files: Readonly<Record<string, string>> = {}): Procedure {
  return procedureOf(FILE, mapLibrary({ [FILE]: text, ...files })).procedure
}

/** Names of the faults that the flow proof finds in a whole text, each once. */
export function flowFaultNames(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  return [...new Set(proveFlow(wholeText(text, files)).faults.map((fault) => fault.fault))].sort()
}

/** The same by the naive explorer. */
export function naiveFaultNames(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  return [...new Set(exploreNaively(wholeText(text, files)).faults.map((fault) => fault.fault))].sort()
}

/** What the rest of the compiler says of it: everything that does not come from the flow proof. */
export function otherFindings(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const inProof = new Set(flowFaultNames(text, files).map((name) => `flow/${name}`))
  return allFindings(text, files).filter((finding) => !inProof.has(finding.split(':')[0] ?? ''))
}

export function allFindings(text: string, files: Readonly<Record<string, string>> = {}): readonly string[] {
  const library = openLibrary(mapLibrary({ [FILE]: text, ...files }))
  return [...library.findings, ...compileProcedure(FILE, library).findings].map(
    (finding) => `${finding.name}: ${finding.message}`,
  )
}

/** Fault and subject → length of the shortest way, as the naive explorer has it. */
export function naiveLengths({ faults }: NaiveResult): ReadonlyMap<string, number> {
  return new Map(faults.map((fault) => [`${fault.fault} ${fault.subject}`, fault.length]))
}

/** The same of the proof: the shortest of those that differ only in their cause. */
export function provedLengths({ faults }: FlowProof): ReadonlyMap<string, number> {
  const shortest = new Map<string, number>()
  for (const { fault, subject, length } of faults) {
    const key = `${fault} ${subject}`
    shortest.set(key, Math.min(length, shortest.get(key) ?? length))
  }
  return shortest
}

/** In words, where the two differ. */
export function differences(
  naive: ReadonlyMap<string, number>,
  proved: ReadonlyMap<string, number>,
): readonly string[] {
  return [...new Set([...naive.keys(), ...proved.keys()])]
    .filter((key) => naive.get(key) !== proved.get(key))
    .map((key) => `${key}: naive ${naive.get(key) ?? 'nothing'}, proof ${proved.get(key) ?? 'nothing'}`)
}
