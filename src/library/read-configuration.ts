import type { Outcome } from '../findings/finding.ts'
import { type BlockNode, valueAt } from '../syntax/block-node.ts'
import type { SourceText } from '../text/source-text.ts'
import { type ConfiguredChecks, configuredChecks, textsIn } from './configured-checks.ts'
import type { LibraryReader } from './library-reader.ts'
import { readLibraryFile } from './read-library-file.ts'

/** The name of the file that marks a library's root and configures it. */
const CONFIGURATION_FILE = 'witnessmark.yaml'

export interface LibraryConfiguration {
  readonly site: string | null
  readonly printUnits: readonly ('metric' | 'inch')[]
  readonly paper: 'a4' | 'letter' | null
  /** BCP 47. */
  readonly language: string
  /** Roles of the site, by name, for documents that list them. */
  readonly roles: ReadonlyMap<string, BlockNode>
  /** What anyone does in an emergency on this site, where the document does not say. */
  readonly emergency: BlockNode | null
  /** What the site asks of readings, and who may take on an error; each is missing where the site says nothing. */
  readonly checks: ConfiguredChecks
}

export interface ReadConfiguration {
  readonly configuration: LibraryConfiguration
  readonly sources: readonly SourceText[]
}

/** Reads `witnessmark.yaml`; what it does not say, or where there is none, has a default. */
export function readConfiguration(reader: LibraryReader): Outcome<ReadConfiguration> {
  const { value, findings } = readLibraryFile(reader, CONFIGURATION_FILE, 'witnessmark')
  const at = (key: string) => valueAt(value.value ?? undefined, key)
  const text = (key: string) => {
    const node = at(key)
    return node?.kind === 'scalar' ? node.text : null
  }
  const typedUnits = textsIn(at('print-units'))
  const printUnits = typedUnits.filter((unit) => unit === 'metric' || unit === 'inch')
  const paper = text('paper')
  const roles = at('roles')
  const checks = configuredChecks(value.value ?? undefined)
  const configuration: LibraryConfiguration = {
    site: text('site'),
    printUnits: printUnits.length > 0 ? printUnits : ['metric', 'inch'],
    paper: paper === 'a4' || paper === 'letter' ? paper : null,
    language: text('language') ?? 'en',
    roles: new Map(roles?.kind === 'map' ? roles.entries.map((entry) => [entry.key, entry.value]) : []),
    emergency: at('emergency') ?? null,
    checks: checks.value,
  }
  return {
    value: { configuration, sources: value.source ? [value.source] : [] },
    findings: [...findings, ...checks.findings],
  }
}
