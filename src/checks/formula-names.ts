import type { Procedure } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import {
  type CheckedExpression,
  checkExpression,
  type ExpressionNames,
  type NameInfo,
} from '../quantities/check-expression.ts'
import type { Expression } from '../quantities/expression.ts'
import type { ExpressionKind } from '../quantities/expression-kinds.ts'
import { parseExpression } from '../quantities/parse-expression.ts'
import { unitBySpelling } from '../quantities/units.ts'
import { oncePer } from '../text/once-per.ts'
import { everyStep } from './every-step.ts'

/** What a check answers where its author named no answers. */
export const usualAnswers = { passes: ['Yes'], fails: ['No'] } as const

/** Everything that formulas may name, with its kind; a reading whose kind nobody can tell is left out. */
export const formulaNames = oncePer((procedure: Procedure): ExpressionNames => {
  const names = new Map<string, NameInfo>()
  const tables = new Map(procedure.tables.map((table) => [table.id, table]))
  for (const { name, values } of procedure.document.variants) put(names, name, outcome(values), false)
  for (const { id, name, values } of procedure.states) {
    put(names, name, outcome(values), false)
    put(names, id, outcome(values), false)
  }
  const derived: { readonly reading: Reading; readonly position: string | null }[] = []
  const enter = (reading: Reading, kind: ExpressionKind, position: string | null): void => {
    const hasLimit = reading.limit !== null || reading.workedLimit !== undefined || reading.kind === 'check'
    const isList = reading.positions.length > 1
    for (const prefix of position === null ? [''] : ['', `.${position}`]) {
      put(names, reading.name + prefix, { ...kind, isList }, hasLimit)
      for (const field of reading.positions) put(names, `${reading.name}${prefix}.${field}`, kind, hasLimit)
    }
    if (position !== null) put(names, `${reading.name}.all`, { ...kind, isList: true }, hasLimit)
  }
  for (const { step, phase } of everyStep(procedure)) {
    const position = phase.position?.values[0]?.text ?? null
    for (const reading of step.readings) {
      const kind = reading.expression === null ? kindOfReading(reading) : null
      if (kind) enter(reading, kind, position)
      else if (reading.expression !== null) derived.push({ reading, position })
    }
  }
  // The formula says what comes out; a limit in another unit is reported there, and not where the value is used.
  for (const { reading, position } of derived) {
    const kind = kindOfFormula(reading.expression ?? '', { names, tables }) ?? kindOfReading(reading)
    if (kind) enter(reading, kind, position)
  }
  return { names, tables }
})

/** The kind of a formula, or null where it cannot be read, rests on names of unknown kind, or mixes kinds. */
export function kindOfFormula(text: string, known: ExpressionNames): ExpressionKind | null {
  const parsed = parseExpression(text)
  return parsed.ok ? (checkKnown(parsed.value, known)?.kind ?? null) : null
}

/** What is wrong with the kinds in a formula; null where a name in it has no known kind, so that nothing can be said. */
export function checkKnown(expression: Expression, known: ExpressionNames): CheckedExpression | null {
  return hasKnownNames(expression, known) ? checkExpression(expression, known) : null
}

/** Whether each name of a formula is known; answers beside an equals sign are no names. */
function hasKnownNames(expression: Expression, known: ExpressionNames): boolean {
  const isKnown = (part: Expression): boolean => hasKnownNames(part, known)
  switch (expression.is) {
    case 'quantity':
    case 'quoted':
      return true
    case 'name':
      return known.names.has(expression.name) || known.names.has(`${expression.name}.all`)
    case 'negative':
    case 'not':
    case 'in-limit':
      return isKnown(expression.of)
    case 'comparison': {
      const { left, right } = expression
      const asked = left.is === 'name' ? known.names.get(left.name)?.kind : undefined
      if (asked?.is !== 'outcome') return isKnown(left) && isKnown(right)
      // An answer that is none is told as that, not as a mixture.
      return right.is === 'quoted'
        ? asked.outcomes.includes(right.text)
        : right.is !== 'name' || asked.outcomes.includes(right.name)
    }
    case 'arithmetic':
    case 'logic':
      return isKnown(expression.left) && isKnown(expression.right)
    case 'call':
      return expression.of.every(isKnown)
    case 'lookup':
      return expression.keys.every(isKnown)
  }
}

function put(names: Map<string, NameInfo>, name: string, kind: ExpressionKind, hasLimit: boolean): void {
  const before = names.get(name)
  // Two readings of one name and different kinds: nothing is claimed about it.
  if (before && JSON.stringify(before.kind) !== JSON.stringify(kind)) names.delete(name)
  else names.set(name, { kind, hasLimit: hasLimit || (before?.hasLimit ?? false) })
}

const outcome = (outcomes: readonly string[]): ExpressionKind => ({ is: 'outcome', outcomes, isList: false })

function kindOfReading(reading: Reading): ExpressionKind | null {
  const { kind, limit, unit, passes, fails } = reading
  if (kind === 'check') {
    const answers = [...passes, ...fails]
    return outcome(answers.length > 0 ? answers : [...usualAnswers.passes, ...usualAnswers.fails])
  }
  if (limit !== null) return limit.kind === '' ? null : { is: 'quantity', kind: limit.kind, isList: false }
  const found = unit === null ? null : unitBySpelling(unit)
  if (found) return { is: 'quantity', kind: found.kind, isList: false }
  return kind === 'count' ? { is: 'quantity', kind: 'number', isList: false } : null
}
