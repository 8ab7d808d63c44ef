import type { Fault } from '../../findings/finding.ts'
import type { Hazard } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'

/** A safety message says three different things: what it is, what it does to you, how you avoid it. */
export const messageIncomplete: Check = {
  name: 'hazards/message-incomplete',
  severity: 'error',
  title: 'A hazard does not say what it is, what it does and how to avoid it.',
  rules: ['SM-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const hazard of procedure.hazards) {
      const parts = partsOf(hazard)
      // A name that stands for nothing is reported where it is named.
      if (parts.every(({ says }) => says === '')) continue
      const empty = parts.find(({ says }) => says === '')
      if (empty) {
        yield {
          at: hazard.at,
          message: `The hazard "${hazard.id}" does not say ${empty.asks}.`,
          advice: `Add ${empty.key}: and one sentence.`,
        }
        continue
      }
      const [first, second] = samePair(parts)
      if (first === undefined || second === undefined) continue
      yield {
        at: hazard.at,
        message: `The hazard "${hazard.id}" says the same under ${first.key} and ${second.key}.`,
        advice: `Say under ${second.key} ${second.asks}.`,
      }
    }
  },
}

interface MessagePart {
  readonly key: string
  readonly asks: string
  readonly says: string
}

function partsOf({ hazard, consequence, avoid }: Hazard): readonly MessagePart[] {
  return [
    { key: 'hazard', asks: 'what the danger is', says: bare(hazard) },
    { key: 'consequence', asks: 'what it does to a person', says: bare(consequence) },
    { key: 'avoid', asks: 'how to stay clear of it', says: bare(avoid) },
  ]
}

const bare = (sentence: string): string =>
  sentence
    .toLowerCase()
    .replace(/[\s.!]+/g, ' ')
    .trim()

function samePair(parts: readonly MessagePart[]): readonly MessagePart[] {
  for (const part of parts) {
    const same = parts.filter((other) => other.says === part.says)
    if (same.length > 1) return same
  }
  return []
}
