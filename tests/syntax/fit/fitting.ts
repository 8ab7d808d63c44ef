import { asText } from '../../../src/findings/as-text.ts'
import { type PlainValue, plainValue } from '../../../src/syntax/block-node.ts'
import type { BlockPlace } from '../../../src/syntax/fit-block-schema.ts'
import { fitBlock } from '../../../src/syntax/fit-schema.ts'
import { readYamlText } from '../../../src/syntax/read-yaml-text.ts'
import { sourceText } from '../../../src/text/source-text.ts'

export interface FittedText {
  /** The long form of what stayed, as JSON without prototypes shown. */
  readonly value: Readonly<Record<string, PlainValue>>
  /** Everything that was found, as a person sees it. */
  readonly shown: string
  readonly names: readonly string[]
  /** The source text that each finding points at. */
  readonly pointedAt: readonly string[]
}

/** Reads a block from its YAML and fits it at its place. */
export function fitText(yaml: string, place: BlockPlace = 'step'): FittedText {
  const source = sourceText('block.yaml', yaml)
  const read = readYamlText(source)
  if (read.value?.kind !== 'map') throw new Error(`no map: ${yaml}\n${asText(read.findings, [source])}`)
  const fitted = fitBlock({ map: read.value, at: read.value.at }, place)
  const findings = [...read.findings, ...fitted.findings]
  return {
    value: JSON.parse(JSON.stringify(plainValue(fitted.value.map))),
    shown: asText(findings, [source]),
    names: findings.map(({ name }) => name),
    pointedAt: findings.map(({ at }) => yaml.slice(at.start, at.end)),
  }
}
