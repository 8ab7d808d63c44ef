import type { Fault } from '../../findings/finding.ts'
import type { Procedure } from '../../model/procedure.ts'
import { type ComparisonNode, type Expression, type NameNode, namesIn } from '../../quantities/expression.ts'
import type { Inline, Prose } from '../../syntax/prose.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep, everyWrittenStep } from '../every-step.ts'
import { everyFormula } from '../formulas.ts'
import { choices, unknownName } from '../unknown-name.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** A formula, a condition or a `[=name]` rests on a reading that nobody takes. */
export const unknownReading: Check = {
  name: 'references/unknown-reading',
  severity: 'error',
  title: 'A reading or an answer is named that no step has.',
  rules: ['BR-07', 'NU-12'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const known = knownNames(procedure)
    for (const { read, part } of everyFormula(procedure, written)) {
      if (!('expression' in read)) continue
      for (const { node, message, names, otherwise } of unknownIn(read.expression, known))
        yield unknownName(part(node.from, node.to), message, node.name, names, otherwise)
    }
    for (const { step } of everyWrittenStep(procedure)) {
      for (const name of step.spoils) {
        if (known.answersOf.has(name)) continue
        const at = placeOfWord(writtenAt(written, step.at)?.block, ['spoils'], name) ?? step.at
        yield unknownName(at, `No reading is called "${name}".`, name, [...known.answersOf.keys()], 'Name a reading.')
      }
    }
    for (const value of valuesIn(procedure)) {
      const name = baseOf(value.name)
      if (value.at === undefined || known.printed.has(name)) continue
      const names = [...known.printed]
      const message = `[=${value.name}] asks for the value of "${name}", and nothing of that name has one.`
      yield unknownName(value.at, message, name, names, 'Name a reading with a limit, or a torque.')
    }
  },
}

interface KnownNames {
  /** Readings and states with the answers they can have; empty for figures. */
  readonly answersOf: ReadonlyMap<string, readonly string[]>
  /** Names that `[=name]` can print. */
  readonly printed: ReadonlySet<string>
}

interface UnknownNode {
  readonly node: NameNode
  readonly message: string
  readonly names: readonly string[]
  readonly otherwise: string
}

const baseOf = (name: string): string => name.split(/[.@]/)[0] ?? ''

function knownNames(procedure: Procedure): KnownNames {
  const answersOf = new Map<string, readonly string[]>()
  const printed = new Set<string>()
  for (const { name, values } of procedure.document.variants) answersOf.set(name, values)
  for (const { name, values } of procedure.states) answersOf.set(name, values)
  for (const { step } of everyStep(procedure)) {
    for (const { name, passes, fails } of step.readings) {
      answersOf.set(name, [...passes, ...fails])
      printed.add(name)
    }
    for (const { id } of step.torques) printed.add(baseOf(id))
  }
  return { answersOf, printed }
}

/** Beside an equals sign stands the name of a reading, and on its other side a reading or one of its answers. */
function unknownIn(expression: Expression, { answersOf }: KnownNames): readonly UnknownNode[] {
  const answers = new Map<NameNode, NameNode>()
  for (const { left, right } of comparisonsIn(expression)) {
    if (left.is !== 'name' || right.is !== 'name') continue
    if (answersOf.has(baseOf(left.name)) && !answersOf.has(baseOf(right.name))) answers.set(right, left)
    else if (answersOf.has(baseOf(right.name)) && !answersOf.has(baseOf(left.name))) answers.set(left, right)
  }
  return namesIn(expression).flatMap((node): readonly UnknownNode[] => {
    const asked = answers.get(node)
    if (asked) {
      const possible = answersOf.get(baseOf(asked.name)) ?? []
      if (possible.length === 0 || possible.includes(node.name)) return []
      const message = `"${asked.name}" is never "${node.name}"; it is ${choices(possible)}.`
      return [{ node, message, names: possible, otherwise: 'Write one of its answers.' }]
    }
    if (answersOf.has(baseOf(node.name))) return []
    const message = `No step takes a reading called "${node.name}".`
    const otherwise = 'Take the reading in an earlier step: measure, check, count or derive.'
    return [{ node, message, names: [...answersOf.keys()], otherwise }]
  })
}

function comparisonsIn(expression: Expression): readonly ComparisonNode[] {
  switch (expression.is) {
    case 'comparison':
      return expression.operator === '=' ? [expression] : []
    case 'logic':
      return [...comparisonsIn(expression.left), ...comparisonsIn(expression.right)]
    case 'not':
      return comparisonsIn(expression.of)
    case 'call':
      return expression.of.flatMap(comparisonsIn)
    default:
      return []
  }
}

type ValueInline = Extract<Inline, { readonly kind: 'value' }>

function valuesIn(procedure: Procedure): readonly ValueInline[] {
  return [
    ...procedure.purpose.flatMap(inProse),
    ...procedure.phases.flatMap((phase) => phase.prose.flatMap(inProse)),
    ...everyWrittenStep(procedure).flatMap(({ step }) => [
      ...inInlines(step.text.inlines),
      ...step.acts.flatMap((act) => inInlines(act.text.inlines)),
      ...step.details.flatMap(inProse),
    ]),
  ]
}

function inProse(prose: Prose): readonly ValueInline[] {
  switch (prose.kind) {
    case 'paragraph':
      return inInlines(prose.children)
    case 'list':
      return prose.items.flat().flatMap(inProse)
    case 'table':
      return [...prose.head, ...prose.rows.flat()].flatMap(inInlines)
    case 'quote':
      return prose.children.flatMap(inProse)
    case 'figure':
      return []
  }
}

function inInlines(inlines: readonly Inline[]): readonly ValueInline[] {
  return inlines.flatMap((inline) => {
    if (inline.kind === 'value') return [inline]
    return 'children' in inline ? inInlines(inline.children) : []
  })
}
