import type { Procedure } from '../model/procedure.ts'
import type { Reading } from '../model/readings.ts'
import { sampleOf } from '../quantities/condition-cells.ts'
import { fromBase } from '../quantities/convert.ts'
import { judgeValue, limitOfPrinted } from '../quantities/judge-reading.ts'
import { unitBySymbol } from '../quantities/units.ts'
import { oncePer } from '../text/once-per.ts'
import { domainsOf } from './condition-domains.ts'
import { everyCondition, readCondition, spaceOfConditions } from './conditions.ts'
import { baseNamesIn, namesInDerived } from './formulas.ts'

export type Side = 'low' | 'high'

/**
 * The sides of a limit that no condition tells from being in limit: `when: torque > 0.8 N·m` answers what is too high and
 * says nothing of what is too low. Empty where a condition is beyond that, or a worked-out value hands the reading on.
 */
export function sidesNotTold(procedure: Procedure, { name, limit: printed }: Reading): readonly Side[] {
  const limit = printed && limitOfPrinted(printed)
  const unit = unitBySymbol(printed?.unit ?? '')
  if (!limit || !unit || namesInDerived(procedure).has(name)) return []
  const domains = domainsOf(procedure, { afterElse: false })
  const open = new Set<Side>([...(limit.lower ? ['low' as const] : []), ...(limit.upper ? ['high' as const] : [])])
  for (const { text, here, names } of conditionsWithNames(procedure)) {
    if (!names.has(name)) continue
    const asked = readCondition(text, domains(here))
    // The limit itself cuts the line where it must be cut.
    const itself = readCondition(`${name} in limit`, domains(here))
    const space = asked && itself && spaceOfConditions([asked, itself])
    const place = space?.dimensions.findIndex(({ subject }) => subject.key === name) ?? -1
    const dimension = space?.dimensions[place]
    if (!space || !dimension || dimension.subject.domain.places !== 1) return []
    const sides = dimension.cells.map((cell) => {
      const value = sampleOf(cell)
      return value === null ? 'in' : judgeValue(limit, fromBase(value, unit)).verdict
    })
    const weight = space.dimensions.slice(0, place).reduce((product, { sights }) => product * sights.length, 1)
    for (const side of open) {
      const holdsAt = (combination: number) => space.truths[0]?.[combination]
      const isTold = Array.from({ length: space.size }, (_, combination) => combination).some((combination) => {
        const cell = Math.floor(combination / weight) % sides.length
        if (sides[cell] !== side) return false
        return sides.some(
          (other, index) => other === 'in' && holdsAt(combination + (index - cell) * weight) !== holdsAt(combination),
        )
      })
      if (isTold) open.delete(side)
    }
  }
  return [...open]
}

const conditionsWithNames = oncePer((procedure: Procedure) =>
  everyCondition(procedure).map((condition) => ({ ...condition, names: new Set(baseNamesIn(condition.text)) })),
)
