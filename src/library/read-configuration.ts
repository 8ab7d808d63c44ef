import type { Outcome } from '../findings/finding.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { fromDecimalText } from '../quantities/rational.ts'
import { type BlockNode, valueAt } from '../syntax/block-node.ts'
import type { SourceText } from '../text/source-text.ts'
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

export interface ConfiguredChecks {
  readonly safetyRoles?: readonly string[]
  readonly accuracyRatio?: Rational
  readonly resolutionRatio?: Rational
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
  const configuration: LibraryConfiguration = {
    site: text('site'),
    printUnits: printUnits.length > 0 ? printUnits : ['metric', 'inch'],
    paper: paper === 'a4' || paper === 'letter' ? paper : null,
    language: text('language') ?? 'en',
    roles: new Map(roles?.kind === 'map' ? roles.entries.map((entry) => [entry.key, entry.value]) : []),
    emergency: at('emergency') ?? null,
    checks: configuredChecks(at('safety-roles'), text('accuracy-ratio'), text('resolution-ratio')),
  }
  return { value: { configuration, sources: value.source ? [value.source] : [] }, findings }
}

function configuredChecks(
  safety: BlockNode | undefined,
  accuracy: string | null,
  resolution: string | null,
): ConfiguredChecks {
  const roles = textsIn(safety).map((role) => role.trim().toLowerCase().replace(/\s+/g, '-'))
  const accuracyRatio = ratioOf(accuracy)
  const resolutionRatio = ratioOf(resolution)
  return {
    ...(roles.length > 0 ? { safetyRoles: roles } : {}),
    ...(accuracyRatio ? { accuracyRatio } : {}),
    ...(resolutionRatio ? { resolutionRatio } : {}),
  }
}

/** `4` and `4:1` are the same. */
function ratioOf(typed: string | null): Rational | null {
  return typed === null ? null : fromDecimalText(typed.replace(/:1$/, ''))
}

function textsIn(node: BlockNode | undefined): readonly string[] {
  if (node?.kind === 'scalar') return [node.text]
  return node?.kind === 'list' ? node.items.flatMap((item) => (item.kind === 'scalar' ? [item.text] : [])) : []
}
