import { type Finding, found, type Outcome } from '../../findings/finding.ts'
import { type MapNode, type ScalarNode, valueAt } from '../../syntax/block-node.ts'
import type { Prose } from '../../syntax/prose.ts'
import type { WrittenBlock, WrittenPhase, WrittenStep } from '../../syntax/written.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { fragmentIncludesItself, fragmentMissing, parameterMissing, parameterUnknown } from '../faults/faults.ts'
import { entriesOf, itemsOf, keysAt, scalarsAt } from './read-node.ts'
import { substitutePhase } from './substitute.ts'

/** A fragment as written: the inside of a phase, with the parameters that its front matter asks for. */
export interface FragmentSource {
  readonly frontMatter: MapNode | null
  readonly prose: readonly Prose[]
  readonly block: WrittenBlock | null
  readonly steps: readonly WrittenStep[]
}

export interface FragmentShelf {
  /** Ids of all fragments of the library. */
  readonly ids: readonly string[]
  /** The fragment, or null where it cannot be used (its own findings say why). */
  readonly read: (id: string) => Outcome<FragmentSource | null>
}

/** Puts the steps of included fragments before the phase's own, their parameters filled in. */
export function includeFragments(
  phases: readonly WrittenPhase[],
  shelf: FragmentShelf,
): Outcome<readonly WrittenPhase[]> {
  const findings: Finding[] = []
  const include = (phase: WrittenPhase, inside: readonly string[]): WrittenPhase => {
    const branches = phase.branches.map((branch) => include(branch, inside))
    const includes = itemsOf(phase.block ? valueAt(phase.block.map, 'include') : undefined)
    const isChanged = branches.some((branch, index) => branch !== phase.branches[index])
    let result: WrittenPhase = isChanged ? { ...phase, branches } : phase
    for (const item of [...includes].reverse()) {
      const name = scalarsAt(item, 'fragment')[0]
      const values = valueAt(item, 'with')
      if (name) result = withFragment(result, name, values?.kind === 'map' ? values : null, inside)
    }
    return result
  }

  const withFragment = (
    phase: WrittenPhase,
    name: ScalarNode,
    values: MapNode | null,
    inside: readonly string[],
  ): WrittenPhase => {
    if (inside.includes(name.text)) {
      findings.push(
        found(fragmentIncludesItself, {
          at: name.at,
          message: `The fragment "${name.text}" includes itself${inside.length > 1 ? ` (by way of ${inside.slice(1).join(', ')})` : ''}.`,
          advice: 'Take the `include` out of the fragment.',
        }),
      )
      return phase
    }
    if (!shelf.ids.includes(name.text)) {
      const near = nearestName(name.text, shelf.ids)
      findings.push(
        found(fragmentMissing, {
          at: name.at,
          message: `There is no fragment "${name.text}" in shared/fragments.`,
          advice: near
            ? `Did you mean "${near}"?`
            : `Write it as shared/fragments/${name.text}.md, or name another one.`,
        }),
      )
      return phase
    }
    const read = shelf.read(name.text)
    findings.push(...read.findings)
    if (read.value === null) return phase
    const asked = keysAt(read.value.frontMatter ?? undefined, 'parameters')
    findings.push(...wrongParameters(name, values, asked))
    const parameters = new Map(
      (values?.entries ?? []).flatMap((entry) =>
        entry.value.kind === 'scalar' ? [[entry.key, entry.value.text] as const] : [],
      ),
    )
    const { prose, block, steps } = read.value
    const inner = substitutePhase({ ...phase, prose, block, steps, branches: [] }, parameters)
    const included = include({ ...inner, title: phase.title }, [...inside, name.text])
    return {
      ...phase,
      prose: [...phase.prose, ...included.prose],
      block: merged(phase.block, included.block),
      steps: [...included.steps, ...phase.steps],
    }
  }

  return { value: phases.map((phase) => include(phase, [])), findings }
}

function wrongParameters(name: ScalarNode, values: MapNode | null, asked: readonly string[]): readonly Finding[] {
  const given = (values?.entries ?? []).map((entry) => entry.key)
  const missing = asked
    .filter((parameter) => !given.includes(parameter))
    .map((parameter) =>
      found(parameterMissing, {
        at: name.at,
        message: `The fragment "${name.text}" asks for "${parameter}", and no value is given.`,
        advice: `Add it: \`with: { ${parameter}: … }\`.`,
      }),
    )
  const unknown = entriesOf(values ?? undefined)
    .filter((entry) => !asked.includes(entry.key))
    .map((entry) => {
      const near = nearestName(entry.key, asked)
      return found(parameterUnknown, {
        at: entry.keyAt,
        message: `The fragment "${name.text}" does not ask for "${entry.key}".`,
        advice: near ? `Did you mean "${near}"?` : `It asks for: ${asked.join(', ') || 'nothing'}.`,
      })
    })
  return [...missing, ...unknown]
}

/** The phase's own keys win over those of the fragment. */
function merged(own: WrittenBlock | null, fragment: WrittenBlock | null): WrittenBlock | null {
  if (own === null || fragment === null) return own ?? fragment
  const added = fragment.map.entries.filter((entry) => valueAt(own.map, entry.key) === undefined)
  return { ...own, map: { ...own.map, entries: [...own.map.entries, ...added] } }
}
