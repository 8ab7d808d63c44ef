import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyWrittenStep } from '../every-step.ts'

const stops =
  /\b(?:hold|witness|inspection) point\b|\b(?:do not|don't|must not) (?:go on|proceed|continue|carry on) (?:until|before|without)\b[^.]*\b(?:sign|release|approv|inspect|permission|agree|check)/i
const asks = /\b(?:have|get|let|ask|wait for|show)\b/i
const looks =
  /\b(?:sign|signs|signed|inspect|inspects|inspected|approve|approves|approval|release|releases|released|witness|witnesses|verify|verifies|verified)\b/i

/** A stop that stands in the text alone has no line to sign, and is walked past. */
export const holdInWordsOnly: Check = {
  name: 'holds/asked-in-words-only',
  severity: 'warning',
  title: 'A step asks in words for somebody to look and sign, and nothing is there to sign.',
  rules: ['HP-01', 'HP-02', 'HP-04', 'HP-07'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const names = procedure.roles.map(({ id }) => ({
      id,
      said: new RegExp(`\\b${id.replaceAll('-', '[- ]')}\\b`, 'i'),
    }))
    for (const { step } of everyWrittenStep(procedure)) {
      if (step.holds.length > 0) continue
      const sentence = step.text.plain
        .split(/(?<=[.!?])\s/)
        .find((part) => stops.test(part) || (asks.test(part) && looks.test(part)))
      if (sentence === undefined) continue
      const doers = doersOf(step)
      const other = names.find(({ id, said }) => !doers.includes(id) && said.test(sentence))
      if (other === undefined && !stops.test(sentence)) continue
      const role = other?.id ?? 'supervisor'
      yield {
        at: step.at,
        message: `Step ${step.number} says "${sentence}", and nobody has a line to sign.`,
        advice: `Stop the work with hold: { ${role}: I saw … }; where the work may go on without him, write witness; where he reads it again himself, verify.`,
      }
    }
  },
}
