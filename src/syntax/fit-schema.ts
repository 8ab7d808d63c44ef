import { type Finding, found, type Outcome } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { BlockNode, MapEntry, MapNode } from './block-node.ts'
import { type BlockPlace, blockKeys, type LocatedSchema, schemaNamed } from './fit-block-schema.ts'
import { withoutEmptyValues } from './fit-empty.ts'
import { fitShape } from './fit-shape.ts'
import { misplacedKey, unknownKey, wrongShape } from './schema-faults.ts'
import { expandShortForm } from './short-form.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenStep } from './written.ts'

/**
 * Writes out every short form of a procedure and judges every block by its schema.
 * What does not fit is reported and left out, so that later stages meet only valid shapes.
 */
export function fitProcedure(written: WrittenProcedure): Outcome<WrittenProcedure> {
  const findings: Finding[] = []
  const fitted = (block: WrittenBlock | null, place: BlockPlace): WrittenBlock | null => {
    if (block === null) return null
    const outcome = fitBlock(block, place)
    findings.push(...outcome.findings)
    return outcome.value
  }
  const fitStep = (step: WrittenStep): WrittenStep => ({
    ...step,
    block: fitted(step.block, 'step'),
    steps: step.steps.map(fitStep),
  })
  const fitPhase = (phase: WrittenPhase): WrittenPhase => ({
    ...phase,
    block: fitted(phase.block, 'phase'),
    steps: phase.steps.map(fitStep),
    branches: phase.branches.map(fitPhase),
  })
  const value: WrittenProcedure = {
    ...written,
    frontMatter: fitted(written.frontMatter, 'front-matter'),
    block: fitted(written.block, 'document'),
    phases: written.phases.map(fitPhase),
  }
  return { value, findings }
}

/** The block with its short forms written out, and without what its schemas do not accept. */
export function fitBlock(block: WrittenBlock, place: BlockPlace): Outcome<WrittenBlock> {
  if (place === 'front-matter') {
    const { value, findings } = fitValue(block.map, 'front-matter', 'the front matter')
    return { value: { ...block, map: value?.kind === 'map' ? value : { ...block.map, entries: [] } }, findings }
  }
  const findings: Finding[] = []
  const entries: MapEntry[] = []
  for (const entry of block.map.entries) {
    const outcome = fitEntry(entry, place)
    findings.push(...outcome.findings)
    if (outcome.value !== null) entries.push({ ...entry, value: outcome.value })
  }
  return { value: { ...block, map: { ...block.map, entries } }, findings }
}

/**
 * A value of the language or of the library, by the name of its schema (`library/hazards`): short forms written out,
 * without what the schema does not accept; null where nothing of it can stay.
 *
 * @param title what a person calls it: the key it stands under, or "the front matter"
 */
export function fitValue(node: BlockNode, name: string, title: string): Outcome<BlockNode | null> {
  const schema = schemaNamed(name)
  if (schema === null) throw new Error(`no schema ${name}`)
  return fitLocated(node, schema, name, title)
}

function fitLocated(node: BlockNode, schema: LocatedSchema, name: string, title: string): Outcome<BlockNode | null> {
  const filled = withoutEmptyValues(node)
  if (filled.value === null) return filled
  const expanded = expandShortForm(filled.value, schema)
  const fitted = fitShape(expanded.value, schema, name, title)
  return { value: fitted.node, findings: [...filled.findings, ...expanded.findings, ...fitted.findings] }
}

const placeNames: Readonly<Record<BlockPlace, string>> = {
  'front-matter': 'the front matter',
  document: 'the document block, above the first phase',
  phase: 'the block of a phase',
  step: 'the block of a step',
}

function fitEntry(entry: MapEntry, place: BlockPlace): Outcome<BlockNode | null> {
  const schema = schemaNamed(`blocks/${entry.key}`)
  if (schema === null) return { value: null, findings: [unknown(entry, place)] }
  const places = schema.schema.places ?? []
  if (!places.includes(place)) return { value: null, findings: [misplaced(entry, place, places)] }
  return fitLocated(entry.value, schema, `blocks/${entry.key}`, entry.key)
}

function unknown(entry: MapEntry, place: BlockPlace): Finding {
  const here = [...blockKeys].filter(([, schema]) => schema.places?.includes(place)).map(([key]) => key)
  const near = nearestName(entry.key, here) ?? nearestName(entry.key, blockKeys.keys())
  const inFrontMatter = schemaNamed('front-matter')?.schema.properties ?? {}
  const advice =
    near !== null
      ? `Did you mean \`${near}\`?`
      : Object.hasOwn(inFrontMatter, entry.key)
        ? `Move \`${entry.key}:\` to ${placeNames['front-matter']}, between the --- lines at the top.`
        : `There can stand: ${here.join(', ')}.`
  return found(unknownKey, {
    at: entry.keyAt,
    message: `\`${entry.key}\` is no key of ${placeNames[place]}.`,
    advice,
  })
}

function misplaced(entry: MapEntry, place: BlockPlace, places: readonly BlockPlace[]): Finding {
  return found(misplacedKey, {
    at: entry.keyAt,
    message: `\`${entry.key}\` stands in ${placeNames[place]}, where it says nothing.`,
    advice: `Move it to ${places.map((allowed) => placeNames[allowed]).join(', or ')}.`,
  })
}

/** A map that a library file must be; anything else is reported. */
export function mapOrFinding(node: BlockNode, what: string): Outcome<MapNode | null> {
  if (node.kind === 'map') return { value: node, findings: [] }
  const fault = {
    at: node.at,
    message: `${what} wants keys with values; here stands ${node.kind === 'list' ? 'a list' : 'a text'}.`,
    advice: 'Type a key, a colon and its value on each line.',
  }
  return { value: null, findings: [found(wrongShape, fault)] }
}
