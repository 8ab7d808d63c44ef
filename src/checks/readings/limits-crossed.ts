import type { Fault } from '../../findings/finding.ts'
import { exactNumberText } from '../../quantities/number-text.ts'
import { parseNumber } from '../../quantities/parse-number.ts'
import type { PrintedLimit } from '../../quantities/quantity-types.ts'
import { compare, fromExactText, zero } from '../../quantities/rational.ts'
import type { Check, CheckSubject } from '../check.ts'
import { compareExact } from '../exact-number.ts'
import { everyJudgedLimit } from '../judged-limits.ts'

/** The lower end stands above the upper: whatever is read is out of limit, or the two were typed the wrong way round. */
export const limitsCrossed: Check = {
  name: 'readings/limits-crossed',
  severity: 'error',
  title: 'A limit has its lower end above its upper end.',
  rules: ['NU-13'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, limit, at } of everyJudgedLimit(procedure)) {
      const { lower, upper } = limit
      if (lower === null || upper === null || compareExact(lower.exact, upper.exact) <= 0) continue
      const message = `"${name}" runs from ${asTyped(lower.exact, limit)} up to ${asTyped(upper.exact, limit)}: no reading can be both.`
      yield { at, message, advice: 'Write the smaller value first.' }
    }
  },
}

/** `0.310 in` where that was typed, and not `31/100 in`. */
function asTyped(exact: string, { typed, unit }: PrintedLimit): string {
  const value = fromExactText(exact) ?? zero
  const written = (typed.match(/[−-]?[\d.]*\d(?:[-/⁄]\d+)*/g) ?? []).find((word) => {
    const number = parseNumber(word)
    return number.ok && compare(number.value.value, value) === 0
  })
  return `${written ?? exactNumberText(value)} ${unit}`.trim()
}
