import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'

const FEW = 4

/** The strongest word is heard while it is rare. */
export const dangerEverywhere: Check = {
  name: 'hazards/danger-everywhere',
  severity: 'advice',
  title: 'More than half of the messages are DANGER.',
  rules: ['SM-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const { hazards } = procedure
    const dangers = hazards.filter(({ signalWord }) => signalWord === 'danger')
    const [first] = dangers
    if (first === undefined || hazards.length < FEW || dangers.length * 2 <= hazards.length) return
    yield {
      at: first.at,
      message: `${dangers.length} of ${hazards.length} messages are DANGER: ${dangers.map(({ id }) => id).join(', ')}.`,
      advice:
        'DANGER is for what will kill or maim whoever does not heed it. Where it could, rate it likelihood: could; the word is then WARNING.',
    }
  },
}
