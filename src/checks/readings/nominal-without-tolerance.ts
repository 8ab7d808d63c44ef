import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyJudgedLimit, type JudgedLimit } from '../judged-limits.ts'

/** "45 mm" and nothing else: 45.1 mm is then right to one fitter and wrong to the next. */
export const nominalWithoutTolerance: Check = {
  name: 'readings/nominal-without-tolerance',
  severity: 'error',
  title: 'A value is given without saying how far from it is still good.',
  rules: ['NU-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    // A limit that could not be read at all has no kind and is reported as that.
    const nominal = everyJudgedLimit(procedure).filter(({ limit }) => limit.form === 'nominal' && limit.kind !== '')
    for (const [{ name, limit, at }, ...others] of byPlace(nominal)) {
      const value = limit.typed
      const values = [...new Set([value, ...others.map((other) => other.limit.typed)])]
      yield {
        at,
        message: `"${name}" shall be ${values.join(' or ')}, but nothing says how far from it is still good.`,
        // No gauge shows exactly nothing.
        advice: isZero(limit)
          ? `Write what may still show: ${value} ± …, or max … ${limit.unit}.`
          : `Write a range, one side, or a tolerance: ${value} ± …, max ${value}, or min ${value}.`,
      }
    }
  },
}

const isZero = ({ typed }: JudgedLimit['limit']): boolean => /^0(?:\.0+)?\s*[^\d.,\s]/.test(typed)

/** A reading with a limit for each variant, or for each row of a table, is told once. */
function byPlace(limits: readonly JudgedLimit[]): readonly (readonly [JudgedLimit, ...JudgedLimit[]])[] {
  const places = new Map<string, [JudgedLimit, ...JudgedLimit[]]>()
  for (const limit of limits) {
    const key = `${limit.name} ${limit.at.file} ${limit.at.start}`
    const same = places.get(key)
    if (same) same.push(limit)
    else places.set(key, [limit])
  }
  return [...places.values()]
}
