import { type Finding, found, type Outcome } from '../../findings/finding.ts'
import { type BlockNode, valueAt } from '../../syntax/block-node.ts'
import type { WrittenPhase } from '../../syntax/written.ts'
import { identifierFrom } from '../../text/identifier.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { DraftLoop, DraftPhase } from '../draft.ts'
import type { LookUpTable, NamedText } from '../entries.ts'
import { repeatTargetUnknown, tableUnknown } from '../faults/faults.ts'
import type { Position } from '../procedure.ts'
import { itemsOf, scalarsOf, textAt } from './read-node.ts'
import { type Parameters, substitutePhase } from './substitute.ts'

/** One pass of a repeat: what stands behind the `@` of ids, and what is put in for its parameters. */
export interface Pass {
  readonly suffix: string
  readonly position: Position | null
  readonly parameters: Parameters
}

const ONCE: Pass = { suffix: '', position: null, parameters: new Map() }

/**
 * Puts the phases in the order in which they are worked, each repeat written out.
 *
 *     ## A  ## B {each: [left, right], through: C}  ## C  ## D
 *     →  1 A · 2 B left · 3 C left · 2 B right · 3 C right · 4 D
 */
export function layOutPhases(
  phases: readonly WrittenPhase[],
  tables: readonly LookUpTable[],
): Outcome<readonly DraftPhase[]> {
  const findings: Finding[] = []
  const baseIds = phases.map((phase) => phase.id?.id ?? identifierFrom(phase.title))
  const draft: DraftPhase[] = []
  let index = 0
  while (index < phases.length) {
    const repeat = repeatOf(phases[index])
    const last = lastOfRepeat(repeat, index, baseIds, findings)
    for (const pass of passesOf(repeat, tables, findings)) {
      for (let member = index; member <= last; member++) {
        const phase = phases[member]
        if (phase === undefined) continue
        const baseId = baseIds[member] ?? ''
        const loop = member === last ? loopOf(repeat, baseIds[index] ?? '', pass) : null
        draft.push(...draftOf(phase, baseId, String(member + 1), pass, loop))
      }
    }
    index = last + 1
  }
  return { value: draft, findings }
}

function repeatOf(phase: WrittenPhase | undefined): BlockNode | undefined {
  return phase?.block ? valueAt(phase.block.map, 'repeat') : undefined
}

/** Index of the last phase that belongs to the repeat (`through`), the phase itself where none is named. */
function lastOfRepeat(
  repeat: BlockNode | undefined,
  first: number,
  baseIds: readonly string[],
  findings: Finding[],
): number {
  const through = valueAt(repeat, 'through')
  if (through?.kind !== 'scalar') return first
  const last = baseIds.indexOf(through.text)
  if (last >= first) return last
  const near = nearestName(through.text, baseIds.slice(first))
  findings.push(
    found(repeatTargetUnknown, {
      at: through.at,
      message: `The repeat goes through "${through.text}", but no phase from here on has that id.`,
      advice: near ? `Did you mean "${near}"?` : 'Name the last phase that is repeated.',
    }),
  )
  return first
}

/** The passes of a repeat: one a position, a pair or a table row; a single one where nothing repeats by position. */
export function passesOf(
  repeat: BlockNode | undefined,
  tables: readonly LookUpTable[],
  findings: Finding[],
): readonly Pass[] {
  const each = scalarsOf(valueAt(repeat, 'each'))
  if (each.length > 0) return each.map((scalar) => passFor([{ name: 'position', text: scalar.text }]))
  const pairs = itemsOf(valueAt(repeat, 'pairs'))
  if (pairs.length > 0)
    return pairs.map((pair) => {
      const [first, second] = scalarsOf(pair).map((scalar) => scalar.text)
      return passFor([
        { name: 'first', text: first ?? '' },
        { name: 'second', text: second ?? '' },
      ])
    })
  const rows = valueAt(repeat, 'rows')
  if (rows?.kind !== 'scalar') return [ONCE]
  const table = tables.find((candidate) => candidate.id === rows.text)
  if (table !== undefined && table.rows.length > 0)
    return table.rows.map((row) =>
      passFor(table.columns.map((column, index) => ({ name: column, text: row[index] ?? '' }))),
    )
  const near = nearestName(
    rows.text,
    tables.map((candidate) => candidate.id),
  )
  findings.push(
    found(tableUnknown, {
      at: rows.at,
      message: `The repeat goes over the rows of "${rows.text}", but this document has no such table with rows.`,
      advice: near ? `Did you mean "${near}"?` : 'Write the table under `tables` in the block at the top.',
    }),
  )
  return [ONCE]
}

function passFor(values: readonly NamedText[]): Pass {
  const words = values.map((value) => value.text)
  const label = values.length === 1 ? (words[0] ?? '') : values.map((value) => `${value.name} ${value.text}`).join(', ')
  return {
    suffix: identifierFrom(words.join(' ')),
    position: { label, values },
    parameters: new Map(values.map((value) => [value.name, value.text])),
  }
}

/** Two repeats inside one another: `left` and `3` → `left.3`. */
export function passWithin(outer: Pass, inner: Pass): Pass {
  if (inner.position === null) return outer
  if (outer.position === null) return inner
  return {
    suffix: `${outer.suffix}.${inner.suffix}`,
    position: {
      label: `${outer.position.label}, ${inner.position.label}`,
      values: [...outer.position.values, ...inner.position.values],
    },
    parameters: new Map([...outer.parameters, ...inner.parameters]),
  }
}

export function withSuffix(baseId: string, suffix: string): string {
  return suffix === '' ? baseId : `${baseId}@${suffix}`
}

function loopOf(repeat: BlockNode | undefined, firstBaseId: string, pass: Pass): DraftLoop | null {
  const condition = textAt(repeat, 'until')
  if (repeat?.kind !== 'map' || condition === null) return null
  return {
    first: withSuffix(firstBaseId, pass.suffix),
    condition,
    atMost: textAt(repeat, 'at-most'),
    repeat,
    at: repeat.at,
  }
}

function draftOf(
  phase: WrittenPhase,
  baseId: string,
  number: string,
  pass: Pass,
  loop: DraftLoop | null,
): readonly DraftPhase[] {
  const here = substitutePhase(phase, pass.parameters)
  const id = withSuffix(baseId, pass.suffix)
  const common = { position: pass.position, suffix: pass.suffix, parameters: pass.parameters }
  const main: DraftPhase = {
    ...common,
    id,
    baseId,
    number,
    kind: 'phase',
    under: null,
    written: here,
    block: here.block?.map ?? null,
    loop,
  }
  const branches = here.branches.map((branch, index): DraftPhase => {
    const branchBase = branch.id?.id ?? `${baseId}/${identifierFrom(branch.title)}`
    return {
      ...common,
      id: withSuffix(branchBase, pass.suffix),
      baseId: branchBase,
      number: number + branchLetters(index),
      kind: 'branch',
      under: id,
      written: branch,
      block: branch.block?.map ?? null,
      loop: null,
    }
  })
  return [main, ...branches]
}

/** 0 → A, 25 → Z, 26 → AA. */
export function branchLetters(index: number): string {
  const rest = String.fromCharCode(65 + (index % 26))
  return index < 26 ? rest : branchLetters(Math.floor(index / 26) - 1) + rest
}
