import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { wordsOfStepAndBelow } from '../job-words.ts'
import { everyRelease } from '../stored-energies.ts'

/** What a pressure or a tension is let out with. Any of them says how; `release the pressure` says only that. */
const means = new RegExp(
  `\\b(?:${[
    ...['valves?', 'cocks?', 'taps?', 'screws?', 'plugs?', 'drains?', 'vents?', 'bleeders?', 'nipples?', 'petcocks?'],
    ...['caps?', 'fittings?', 'couplings?', 'cores?', 'hoses?', 'lines?', 'pipes?', 'pedals?', 'levers?', 'handles?'],
    ...['handwheels?', 'wheels?', 'joysticks?', 'buttons?', 'switch(?:es)?', 'knobs?', 'controls?', 'keys?', 'rods?'],
    ...['nuts?', 'bolts?', 'turnbuckles?', 'winch(?:es)?', 'jacks?', 'pullers?', 'compressors?', 'clamps?', 'pins?'],
    ...['pumps?', 'pumping', 'dumps?', 'accumulators?', 'tanks?', 'trays?', 'buckets?', 'steer\\w*', 'brak(?:e|ing)'],
    ...[
      'open\\w*',
      'turn\\w*',
      'crack\\w*',
      'loosen\\w*',
      'slacken\\w*',
      'unscrew\\w*',
      'undo',
      'back off',
      'push\\w*',
    ],
    ...[
      'pull\\w*',
      'press(?:es)?',
      'move\\w*',
      'cycle\\w*',
      'strokes?',
      'lower\\w*',
      'wind',
      'unwind',
      'let out',
      'lift\\w*',
    ],
    ...['work(?:s|ing)? the', 'operat\\w+', 'until', 'times', 'fragment', 'unhook\\w*', 'unload\\w*', 'take'],
  ].join('|')})\\b`,
  'i',
)

/** Words that say that it goes, and no more. */
const release =
  /\b(?:bleed|vent|drain|releas|reliev|depressuri[sz]|discharg|exhaust|dump|empt(?:y|ies)|relax|de-?energi[sz]|let (?:down|off|go)|safe)/i

/** "Depressurise the cylinder" is where the work should be, not how one gets there. */
export const releaseWithoutMeans: Check = {
  name: 'lockout/release-without-means',
  severity: 'warning',
  title: 'A step lets a stored energy out and does not say how.',
  rules: ['LO-04'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const reported = new Set<string>()
    for (const { step, state, isPressure } of everyRelease(procedure)) {
      if (!release.test(step.text.plain) || reported.has(step.baseId)) continue
      if (means.test(wordsOfStepAndBelow(step)) || step.uses.length > 0) continue
      reported.add(step.baseId)
      yield {
        at: step.at,
        message: `Step ${step.number} lets "${state.name}" (${state.energy}) out, and does not say with what.`,
        advice: isPressure
          ? 'Name the valve, screw or pedal, and where what comes out goes: Open the bleed screw two turns and let the oil run into the tray.'
          : 'Name what relaxes it, and how far: Turn the tension nut back until the spring is loose on its seat.',
      }
    }
  },
}
