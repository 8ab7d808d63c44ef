import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { entryOf, textIn } from '../entry-data.ts'
import { doersOf } from '../every-step.ts'
import { everySentence } from '../spoken-sentences.ts'

/** Work whose result nobody can see afterwards, as an order. */
const specialProcess =
  /(?:^|, |\band |\bthen |: )(?:(?:tack-)?weld|braze|stress-relieve|heat-treat|case-harden|anneal|temper)\b|\b(?:dye[ -]penetrant|magnetic[ -]particle|eddy[ -]current|ultrasonic) (?:test|inspection|examination|check)\b/i

/** A good weld and a bad one look alike. What can be checked beforehand is who makes it, and by which procedure. */
export const unqualifiedForProcess: Check = {
  name: 'prerequisites/unqualified-for-process',
  severity: 'warning',
  title: 'Welding, heat treatment or a test by special means is done by a role without a qualification.',
  rules: ['PR-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const qualified = new Set(procedure.roles.filter((role) => role.qualifications.length > 0).map(({ id }) => id))
    const told = new Set<string>()
    for (const { text, step, at } of everySentence(procedure)) {
      const method = textIn(entryOf(step, 'hot-work')?.data, 'method') ?? ''
      const found = specialProcess.exec(text)?.[0] ?? /\b(?:weld|braz)ing\b/i.exec(method)?.[0]
      const doers = doersOf(step)
      if (found === undefined || told.has(step.id) || doers.some((role) => qualified.has(role))) continue
      told.add(step.id)
      const who = doers.length === 0 ? 'nobody is named who may do it' : `"${doers.join(', ')}" has no qualification`
      yield {
        at,
        message: `Step ${step.number} is work that cannot be judged by looking at it (${found.replace(/^\W+|^(?:and|then) /g, '').toLowerCase()}), and ${who}.`,
        advice:
          'Give the role what it must hold: welder: { who: …, qualification: [welder, plate and fillet] }, and name the tested procedure in the step.',
      }
    }
  },
}
