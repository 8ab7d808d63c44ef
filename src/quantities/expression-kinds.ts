import type { QuantityKind } from './quantity-types.ts'

/** What an expression is worth before anything is measured; a list has one item a position. */
export type ExpressionKind =
  | { readonly is: 'quantity'; readonly kind: QuantityKind; readonly isList: boolean }
  | { readonly is: 'condition'; readonly isList: boolean }
  | { readonly is: 'outcome'; readonly outcomes: readonly string[]; readonly isList: boolean }

/**
 * Products that the shop works out. All base units are coherent, so that the numbers need no factor of their own.
 * Force × length is read as a torque, never as an energy.
 */
const products: readonly (readonly [QuantityKind, QuantityKind, QuantityKind])[] = [
  ['length', 'length', 'area'],
  ['area', 'length', 'volume'],
  ['force', 'length', 'torque'],
  ['pressure', 'area', 'force'],
  ['stiffness', 'length', 'force'],
  ['mass', 'acceleration', 'force'],
  ['slope', 'length', 'length'],
  ['speed', 'time', 'length'],
  ['flow', 'time', 'volume'],
  ['rotational-speed', 'time', 'angle'],
  ['voltage', 'current', 'power'],
  ['current', 'resistance', 'voltage'],
  ['current', 'time', 'charge'],
  ['power', 'time', 'energy'],
]

/** Numbers and shares (`5 %`) are the same in arithmetic. */
export function isPlain(kind: QuantityKind): boolean {
  return kind === 'number' || kind === 'ratio'
}

/** Whether two kinds can be compared or added. */
export function isSameKind(a: QuantityKind, b: QuantityKind): boolean {
  return a === b || (isPlain(a) && isPlain(b))
}

/** The kind of a sum or difference, or null where there is none. Two temperatures differ by a temperature difference. */
export function kindOfSum(operator: '+' | '-', a: QuantityKind, b: QuantityKind): QuantityKind | null {
  const isDifference = (kind: QuantityKind) => kind === 'temperature-difference'
  if (a === 'temperature' && b === 'temperature') return operator === '-' ? 'temperature-difference' : null
  if (a === 'temperature' && isDifference(b)) return 'temperature'
  if (operator === '+' && isDifference(a) && b === 'temperature') return 'temperature'
  if (a === b) return a
  return isPlain(a) && isPlain(b) ? 'number' : null
}

/** The kind of a product or quotient, or null where there is none. A temperature is not multiplied: its zero is no zero. */
export function kindOfProduct(operator: '*' | '/', a: QuantityKind, b: QuantityKind): QuantityKind | null {
  if (a === 'temperature' || b === 'temperature') return null
  if (isPlain(b)) return isPlain(a) ? 'number' : a
  if (operator === '*') {
    if (isPlain(a)) return b
    return products.find(([x, y]) => (x === a && y === b) || (x === b && y === a))?.[2] ?? null
  }
  if (a === b) return 'number'
  const product = products.find(([x, y, result]) => result === a && (x === b || y === b))
  if (!product) return null
  return product[0] === b ? product[1] : product[0]
}

/** What to type where two kinds do not go together. */
export function mixedKindsAdvice(a: QuantityKind, b: QuantityKind): string {
  if (a.startsWith('temperature') && b.startsWith('temperature')) return 'Type a difference as `5 Δ°C`.'
  if (a === 'temperature' || b === 'temperature') return 'Work with a difference, such as `t2 - t1`.'
  if (a === 'number' || b === 'number') return 'Type the unit behind the number.'
  return 'Use values of one kind.'
}
