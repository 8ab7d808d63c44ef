import type { Outcome } from '../findings/finding.ts'
import type { Place } from '../text/place.ts'
import type { SourceText } from '../text/source-text.ts'
import type { BlockNode } from './block-node.ts'
import { checkLetters } from './check-letters.ts'
import { emptyFile } from './faults/faults.ts'
import { placeOf, type Reading, report } from './markdown/reading.ts'
import { readYaml } from './yaml/read-yaml.ts'
import { yamlTextOf } from './yaml/yaml-text.ts'

/**
 * Reads a whole YAML file, or the part of a text between two offsets, as a located tree with every value as typed.
 * Null where there is nothing, or nothing that can be read; a finding says which.
 */
export function readYamlText(source: SourceText, range?: Pick<Place, 'start' | 'end'>): Outcome<BlockNode | null> {
  const reading: Reading = { source, findings: [] }
  if (!checkLetters(reading)) return { value: null, findings: reading.findings }
  const start = range?.start ?? (source.text.startsWith('\uFEFF') ? 1 : 0)
  const end = range?.end ?? source.text.length
  const value = readYaml(reading, yamlTextOf(source, start, end))
  if (value === null && reading.findings.length === 0)
    report(reading, emptyFile, {
      at: placeOf(reading, start, start),
      message: 'There are no keys and values here.',
      advice: 'Type the keys and values, or delete the file.',
    })
  return { value, findings: reading.findings }
}
