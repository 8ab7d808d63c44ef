import { type Finding, found, type Outcome } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import { oncePer } from '../text/once-per.ts'
import type { BlockNode, MapEntry, MapNode } from './block-node.ts'
import { type BlockPlace, blockKeys, type LocatedSchema, schemaNamed } from './fit-block-schema.ts'
import { withoutEmptyValues } from './fit-empty.ts'
import { noGaps } from './fit-gaps.ts'
import { fitShape } from './fit-shape.ts'
import type { FittedWhole } from './fit-shape-fault.ts'
import type { WrittenFragment } from './read-fragment.ts'
import { misplacedKey, unknownKey } from './schema-faults.ts'
import { expandShortForm } from './short-form.ts'
import type { WrittenBlock, WrittenPhase, WrittenProcedure, WrittenStep } from './written.ts'

/**
 * Writes out every short form of a procedure and judges every block by its schema.
 * What does not fit is reported and left out, so that later stages meet only valid shapes.
 */
export function fitProcedure(written: WrittenProcedure): Outcome<WrittenProcedure> {
  const frontMatter = written.frontMatter === null ? noBlock : fitFrontMatter(written.frontMatter)
  const block = written.block === null ? noBlock : fitDocument(written.block)
  const phases = written.phases.map(fitPhase)
  return {
    value: {
      ...written,
      frontMatter: frontMatter.value,
      block: block.value,
      phases: phases.map(({ value }) => value),
    },
    findings: [frontMatter, block, ...phases].flatMap(({ findings }) => findings),
  }
}

const fitPhase = oncePer((phase: WrittenPhase): Outcome<WrittenPhase> => {
  const block = fitOptional(phase.block, 'phase')
  const steps = phase.steps.map(fitStep)
  const branches = phase.branches.map(fitPhase)
  return {
    value: {
      ...phase,
      block: block.value,
      steps: steps.map(({ value }) => value),
      branches: branches.map(({ value }) => value),
    },
    findings: [block, ...steps, ...branches].flatMap(({ findings }) => findings),
  }
})

const fitStep = oncePer((step: WrittenStep): Outcome<WrittenStep> => {
  const block = fitOptional(step.block, 'step')
  const steps = step.steps.map(fitStep)
  return {
    value: { ...step, block: block.value, steps: steps.map(({ value }) => value) },
    findings: [block, ...steps].flatMap(({ findings }) => findings),
  }
})

const noBlock: Outcome<null> = { value: null, findings: [] }

const fitFrontMatter = oncePer((block: WrittenBlock) => fitBlock(block, 'front-matter'))

const fitDocument = oncePer((block: WrittenBlock) => fitBlock(block, 'document'))

function fitOptional(block: WrittenBlock | null, place: BlockPlace): Outcome<WrittenBlock | null> {
  return block === null ? noBlock : fitBlock(block, place)
}

/** The same for a fragment: its front matter, the block of the phase that it is the inside of, and its steps. */
export function fitFragment(fragment: WrittenFragment): Outcome<WrittenFragment> {
  const { frontMatter } = fragment
  const front = frontMatter === null ? null : fitValue(frontMatter.map, 'library/fragment', 'the front matter')
  const block = fragment.block === null ? null : fitBlock(fragment.block, 'phase')
  const steps = fragment.steps.map(fitStep)
  return {
    value: {
      ...fragment,
      frontMatter: frontMatter && { ...frontMatter, map: mapOf(front?.value ?? null, frontMatter.map) },
      block: block === null ? null : block.value,
      steps: steps.map(({ value }) => value),
    },
    findings: [front, block, ...steps].flatMap((outcome) => outcome?.findings ?? []),
  }
}

/** The block with its short forms written out, and without what its schemas do not accept. */
export function fitBlock(block: WrittenBlock, place: BlockPlace): Outcome<WrittenBlock> {
  if (place === 'front-matter') {
    const { value, findings } = fitValue(block.map, 'front-matter', 'the front matter')
    return { value: { ...block, map: mapOf(value, block.map) }, findings }
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

/** Where nothing of a map could stay, an empty one stands in its place. */
function mapOf(fitted: BlockNode | null, written: MapNode): MapNode {
  return fitted?.kind === 'map' ? fitted : { ...written, entries: [] }
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
  return fitLocated(node, schema, { name, title, keyAt: null })
}

function fitLocated(node: BlockNode, schema: LocatedSchema, whole: FittedWhole): Outcome<BlockNode | null> {
  const gaps = noGaps()
  const filled = withoutEmptyValues(node, gaps)
  if (filled.value === null) return filled
  const expanded = expandShortForm(filled.value, schema, gaps)
  const fitted = fitShape(expanded.value, schema, whole, gaps)
  const findings = [...filled.findings, ...expanded.findings, ...fitted.findings]
  return { value: fitted.node, findings: findings.sort((a, b) => a.at.start - b.at.start) }
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
  return fitLocated(entry.value, schema, { name: `blocks/${entry.key}`, title: entry.key, keyAt: entry.keyAt })
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
        : 'Look up in the reference of the language which key says it, or take it out.'
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
