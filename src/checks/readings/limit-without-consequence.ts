import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { Reading } from '../../model/readings.ts'
import { sidesNotTold } from '../answered-sides.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep, everyWrittenStep } from '../every-step.ts'
import { baseNamesIn, namesInConditions } from '../formulas.ts'

/**
 * The gauge says no, and the procedure says nothing.
 *
 *     measure: { pressure: max 0.5 MPa }          ← reported: out of limit, and the work goes on
 *     measure: { pressure: max 0.5 MPa }
 *     else: stop                                  ← answered here
 *     measure: { wear: max 3 mm }  …  decide: { when: wear in limit … }   ← answered there
 *     measure: { pull: 3 to 8 N }  …  when: pull > 8 N                    ← reported: too low is answered nowhere
 */
export const limitWithoutConsequence: Check = {
  name: 'readings/limit-without-consequence',
  severity: 'error',
  title: 'A reading or check can fail, and nothing follows from it.',
  rules: ['NU-14', 'RC-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const followed = namesThatDecide(procedure)
    for (const { step } of everyWrittenStep(procedure)) {
      for (const reading of step.readings) {
        if (!canFail(reading)) continue
        const silent = followed.has(reading.name) ? untoldSide(procedure, step, reading) : unansweredSide(step, reading)
        if (silent === null) continue
        yield {
          at: reading.at,
          message: `"${reading.name}" may be ${silent}, and then the work simply goes on.`,
          advice: 'Say what follows: else: stop, else: { redo: this, at-most: 3, then: stop }, or else: continue.',
        }
      }
    }
  },
}

function canFail({ kind, limit, asks, passes, fails }: Reading): boolean {
  if (kind === 'set') return false
  if (kind === 'check') return fails.length > 0 || asks !== null || passes.length > 0
  return limit !== null && limit.form !== 'nominal'
}

/** In words, the side of the limit that no `else` of the step answers; null where all are answered. */
function unansweredSide(step: Step, { id, name, kind, limit }: Reading): string | null {
  const own = step.consequences.filter(({ reading }) => reading === null || reading === id || reading === name)
  const sides = new Set(own.map(({ on }) => on))
  if (sides.has('out')) return null
  if (sides.size === 0) return kind === 'check' ? 'failed' : 'out of limit'
  if (limit?.lower && !sides.has('low')) return 'too low'
  return limit?.upper && !sides.has('high') ? 'too high' : null
}

/** In words, the side that neither an `else` nor any condition that names the reading tells from being in limit. */
function untoldSide(procedure: Procedure, step: Step, reading: Reading): string | null {
  if (unansweredSide(step, reading) === null) return null
  const [side, other] = sidesNotTold(procedure, reading)
  if (side === undefined) return null
  const own = step.consequences.filter((one) => [null, reading.id, reading.name].includes(one.reading))
  if (own.some(({ on }) => on === side)) return null
  return other === undefined ? `too ${side}` : 'out of limit'
}

/** Names of readings on which some condition rests, straight or through worked-out values. */
function namesThatDecide(procedure: Procedure): ReadonlySet<string> {
  const names = new Set(namesInConditions(procedure))
  const derived = everyStep(procedure).flatMap(({ step }) =>
    step.readings.filter((reading) => reading.expression !== null).map((reading) => ({ step, reading })),
  )
  // A worked-out value hands on what was decided by it to the readings it is worked out from.
  for (let before = -1; before !== names.size; ) {
    before = names.size
    for (const { step, reading } of derived) {
      const answered = names.has(reading.name) || (canFail(reading) && unansweredSide(step, reading) === null)
      if (answered) for (const name of baseNamesIn(reading.expression ?? '')) names.add(name)
    }
  }
  return names
}
