import { type Document, parseDocument } from 'yaml'
import type { BlockNode } from '../block-node.ts'
import { beyondLimits } from '../faults/faults.ts'
import { placeOf, type Reading, report } from '../markdown/reading.ts'
import { buildNode } from './build-node.ts'
import { explainError } from './explain-error.ts'
import { reportTokens } from './report-tokens.ts'
import { deepestNesting, scanTokens } from './scan-tokens.ts'
import { toSource, type YamlText, yamlLineAt } from './yaml-text.ts'

/** Maps in maps, lists in lists; a block that a person can follow needs fewer than ten. */
const DEEPEST = 64

const SPECIAL = /[#&*!?]|^(?:%|---|\.\.\.)/m

/**
 * Reads YAML with every value as its text (failsafe schema of YAML 1.2, section 10.1), and reports whatever YAML would
 * change, cut off or drop. Null where there is nothing, or nothing that can be read.
 */
export function readYaml(reading: Reading, yaml: YamlText): BlockNode | null {
  const start = toSource(yaml, 0)
  const end = toSource(yaml, yaml.text.length)
  if (deepestNesting(yaml.text) > DEEPEST) {
    report(reading, beyondLimits, {
      at: placeOf(reading, start, Math.max(start, end)),
      message: `Braces, brackets or lines are nested more than ${DEEPEST} deep.`,
      advice: 'Close the braces and brackets, and indent each level by two spaces.',
    })
    return null
  }
  // Most blocks hold none of the signs that YAML gives a meaning of its own.
  const tokens = SPECIAL.test(yaml.text) ? scanTokens(yaml.text) : []
  const reported = reportTokens(reading, yaml, tokens)
  const document = parse(yaml.text)
  const error = document.errors.find((candidate) => !reported.lines.has(yamlLineAt(yaml, candidate.pos[0])))
  if (error !== undefined) explainError(reading, yaml, scanTokens(yaml.text), error)
  if (document.errors.length > 0) return null
  return buildNode(reading, yaml, document.contents, reported)
}

function parse(text: string): Document.Parsed {
  return parseDocument(text, {
    version: '1.2',
    schema: 'failsafe',
    stringKeys: true,
    // Found by `buildNode`, which can say where the first one stands.
    uniqueKeys: false,
    merge: false,
    strict: true,
    prettyErrors: false,
    logLevel: 'silent',
  })
}
