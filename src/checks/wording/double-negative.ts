import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { sentencesOf } from '../sentences.ts'
import { everySaying } from '../told-instructions.ts'

const no = "(?:not|never|cannot|can't|don't|doesn't|isn't|aren't|won't|nobody|no one)"
/** What turns the sense round a second time. */
const doubles: readonly RegExp[] = [
  // "do not fail to drain"
  new RegExp(`\\b${no}\\s+(?:fail|forget|omit|neglect|hesitate)\\b`, 'i'),
  // "not unlocked", "not incorrect": a word that is a "not" already
  /\b(?:not|never|isn't|aren't)\s+(?:un(?!der|til|less|it|ion|iform|ique)[a-z]{3,}ed|un(?:safe|clean|even|equal|clear|stable|usual|able)|incorrect|inactive|incomplete|disconnected|disabled|disengaged|without)\b/i,
  // "unless the guard is not open"
  /\bunless\b[^.;]{0,120}?\b(?:not|isn't|aren't|doesn't|never|no)\b/i,
  // "if the lamp is not lit, do not enter"
  /^(?:if|when|where|while|as long as)\b[^.;,]{0,160}?\b(?:not|isn't|aren't|doesn't|cannot|no)\b[^.;]{0,160}?,\s*(?:then\s+)?(?:do not|don't|never)\b/i,
]

/** Two negations have to be worked out, and at three in the morning one gets lost. */
export const doubleNegative: Check = {
  name: 'wording/double-negative',
  severity: 'warning',
  title: 'A sentence says no twice.',
  rules: ['SG-07'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const { text, where, at } of everySaying(subject))
      for (const sentence of sentencesOf(text)) {
        if (!doubles.some((pattern) => pattern.test(sentence))) continue
        yield {
          at,
          message: `A sentence of ${where} says no twice: "${sentence}"`,
          advice: 'Say what must be so, or what to do: "if the valve is open, drain the pump".',
        }
      }
  },
}
