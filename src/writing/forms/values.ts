import { type BlockNode, plainValue } from '../../syntax/block-node.ts'
import { itemSchema, type LocatedSchema, propertySchema } from '../../syntax/fit-block-schema.ts'
import { withoutEmptyValues } from '../../syntax/fit-empty.ts'
import { noGaps } from '../../syntax/fit-gaps.ts'
import { expandShortForm } from '../../syntax/short-form.ts'
import type { FormValue } from './form.ts'

/** A value of the text in its long form, without what the language does not know. */
export function longForm(node: BlockNode, located: LocatedSchema): FormValue {
  const gaps = noGaps()
  const filled = withoutEmptyValues(node, gaps).value
  return filled === null ? '' : knownPart(plainValue(expandShortForm(filled, located, gaps).value), located)
}

function knownPart(value: FormValue, located: LocatedSchema): FormValue {
  if (typeof value === 'string') return value
  if (!isMap(value)) {
    const items = itemSchema(located)
    return items === null ? value : (value as readonly FormValue[]).map((item) => knownPart(item, items))
  }
  return Object.fromEntries(
    Object.entries(value).flatMap(([name, inner]) => {
      const property = propertySchema(located, name)
      return property === null ? [] : [[name, knownPart(inner, property)]]
    }),
  )
}

export function isMap(value: FormValue | undefined): value is { readonly [name: string]: FormValue } {
  return typeof value === 'object' && !Array.isArray(value)
}

export function isSame(a: FormValue | undefined, b: FormValue | undefined): boolean {
  if (a === undefined || b === undefined || typeof a === 'string' || typeof b === 'string') return a === b
  if (Array.isArray(a) || Array.isArray(b))
    return (
      Array.isArray(a) && Array.isArray(b) && a.length === b.length && a.every((item, index) => isSame(item, b[index]))
    )
  const names = Object.keys(a)
  if (!isMap(a) || !isMap(b) || names.length !== Object.keys(b).length) return false
  return names.every((name) => Object.hasOwn(b, name) && isSame(a[name], b[name]))
}

/** Without fields that nobody filled in. A text may be empty where that alone means something: `stop`. */
export function withoutBlanks(
  value: FormValue,
  meansSomething: readonly string[] = ['stop', 'continue', 'nothing'],
): FormValue {
  if (typeof value === 'string') return value.trim()
  if (!isMap(value))
    return (value as readonly FormValue[]).map((item) => withoutBlanks(item)).filter((item) => !isBlank(item))
  return Object.fromEntries(
    Object.entries(value)
      .map(([name, inner]) => [name, withoutBlanks(inner)] as const)
      .filter(([name, inner]) => !isBlank(inner) || (inner === '' && meansSomething.includes(name))),
  )
}

export function isBlank(value: FormValue): boolean {
  if (typeof value === 'string') return value === ''
  return Array.isArray(value) ? value.length === 0 : Object.keys(value).length === 0
}
