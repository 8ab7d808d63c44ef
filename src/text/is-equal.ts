/**
 * Whether two plain values say the same: numbers, texts, lists, maps and objects of them. Two functions are the same only where they
 * are one.
 *
 * @param isLeftOut keys that may differ, at any depth
 */
export function isEqual(one: unknown, other: unknown, isLeftOut: (key: string) => boolean = nothing): boolean {
  if (one === other) return true
  if (typeof one !== 'object' || typeof other !== 'object' || one === null || other === null) return false
  if (Object.getPrototypeOf(one) !== Object.getPrototypeOf(other)) return false
  if (Array.isArray(one)) return Array.isArray(other) && areEqual(one, other, isLeftOut)
  if (one instanceof Map) return other instanceof Map && areEqual([...one].flat(), [...other].flat(), isLeftOut)
  if (one instanceof Set) return other instanceof Set && areEqual([...one], [...other], isLeftOut)
  const keys = Object.keys(one)
  return (
    keys.length === Object.keys(other).length &&
    keys.every(
      (key) =>
        isLeftOut(key) || (Object.hasOwn(other, key) && isEqual(fieldOf(one, key), fieldOf(other, key), isLeftOut)),
    )
  )
}

const nothing = (): boolean => false

const fieldOf = (thing: object, key: string): unknown => (thing as Readonly<Record<string, unknown>>)[key]

function areEqual(some: readonly unknown[], others: readonly unknown[], isLeftOut: (key: string) => boolean): boolean {
  return some.length === others.length && some.every((one, index) => isEqual(one, others[index], isLeftOut))
}
