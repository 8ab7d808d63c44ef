import { clearedPlace } from './changes.ts'
import type { Plan } from './plan.ts'
import type { Spot } from './spots.ts'

/** For each node and role: the places where somebody may be on coming there, on some way. Never too few. */
export type MayBe = readonly (readonly ReadonlySet<number>[])[]

/** Follows people through the graph without asking what else is so. */
export function whereaboutsOf(plan: Plan): MayBe {
  const roles = plan.subjects.roles.length
  const mayBe = plan.spots.map(() => Array.from({ length: roles }, () => new Set<number>()))
  const start = mayBe[plan.start]
  for (const places of start ?? []) places.add(0)
  const waiting = [plan.start]
  const isWaiting = new Set(waiting)
  for (let next = 0; next < waiting.length; next++) {
    const number = waiting[next] ?? 0
    isWaiting.delete(number)
    const spot = plan.spots[number]
    const here = mayBe[number]
    if (spot === undefined || here === undefined) continue
    const after = here.map((places, role) => afterwards(plan, spot, role, places))
    const spread = (to: number, from: readonly ReadonlySet<number>[]): void => {
      const there = mayBe[to]
      let isNew = false
      for (const [role, places] of from.entries())
        for (const place of places)
          if (!there?.[role]?.has(place)) {
            there?.[role]?.add(place)
            isNew = true
          }
      if (isNew && !isWaiting.has(to)) {
        isWaiting.add(to)
        waiting.push(to)
      }
    }
    for (const way of [...spot.passed, ...spot.failed]) spread(way.to, after)
    for (const way of spot.skipped) spread(way.to, here)
    const entered = here.map((_, role) => new Set(placesEntered(spot, role)))
    for (const other of besides(plan, spot)) for (const places of [here, after, entered]) spread(other, places)
  }
  return mayBe
}

/** Steps of a phase worked `together` may stand anywhere to one another. */
export function besides(plan: Plan, spot: Spot): readonly number[] {
  const phase = plan.sideBySide.get(spot.number)
  return phase ? [phase.spot, ...phase.strands.flatMap((strand) => [...strand.starts.keys()])] : []
}

function placesEntered(spot: Spot, role: number): readonly number[] {
  return (spot.job?.enters ?? []).flatMap((move) => (move.role === role ? [move.place] : []))
}

function afterwards(plan: Plan, spot: Spot, role: number, places: ReadonlySet<number>): ReadonlySet<number> {
  const moves = spot.job?.moves ?? spot.door?.moves ?? []
  const clear = spot.job?.clear ?? spot.door?.clear ?? []
  const moved = moves.findLast((move) => move.role === role)
  if (moved) return new Set([moved.place])
  return clear.length === 0 ? places : new Set([...places].map((place) => clearedPlace({ plan }, place, clear)))
}
