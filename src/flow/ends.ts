import { isLeftOpen } from './changes.ts'
import { type Run, report } from './run.ts'
import type { Spot } from './spots.ts'

/** At the end everything is as it must be given back. */
export function lookAtEnd(run: Run, row: Uint8Array): void {
  const { plan } = run
  const locked = new Set(plan.layout.locks.map((lock) => lock.thing))
  for (const lock of plan.layout.locks)
    if (row[lock.slot] === 1) report(run, 'lock-unpaired', lock.thing, -1, lock.role)
  for (const state of plan.subjects.states.keys()) {
    const value = row[plan.layout.value[state] ?? 0] ?? 0
    if (plan.end[state]?.[value] === 1 || locked.has(state)) continue
    const isSnug = plan.subjects.states[state]?.implied && plan.subjects.values[state]?.[value] === 'snug'
    report(run, isSnug ? 'left-snug' : 'not-put-back', state)
  }
}

/** Where the job stops, everything that may hurt somebody is named. */
export function lookAtStop(run: Run, row: Uint8Array, spot: Spot): void {
  const { plan } = run
  for (const state of plan.subjects.states.keys()) {
    const named = spot.leave.filter((claim) => claim.state === state)
    const value = row[plan.layout.value[state] ?? 0] ?? 0
    const isNamedWrong = named.length > 0 && !named.some((claim) => claim.ok[value] === 1)
    const isUnnamed = named.length === 0 && isLeftOpen(run, row, state)
    if (isNamedWrong || isUnnamed) report(run, 'stop-unsafe', state)
  }
}
