const namePattern = /[\p{L}_][\p{L}\p{N}_°-]*/gu

/**
 * The words of an expression that may be names, without their positions: `max(l1.left, l1.right) in limit` → `max`, `l1`,
 * `in`, `limit`. Good enough to ask whether a name occurs; not to ask whether every word is a name.
 */
export function namesIn(expression: string): readonly string[] {
  return [...expression.matchAll(namePattern)].map((match) => match[0])
}
