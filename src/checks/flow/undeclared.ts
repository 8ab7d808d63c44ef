import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { everyWrittenStep } from '../every-step.ts'

interface DangerousWork {
  /** As it is told: "lifts something with gear". */
  readonly says: string
  /** Kinds of energy, one of which a state must carry. */
  readonly energies: readonly string[]
  /** Keys of a block that are such work. */
  readonly keys: readonly string[]
  /** Words of a step that are such work. */
  readonly words: RegExp | null
  readonly advice: string
}

const works: readonly DangerousWork[] = [
  {
    says: 'lifts or carries a load with gear',
    energies: ['gravity'],
    keys: ['lift', 'support'],
    words:
      /\b(?:lift|raise|hoist|lower|swing)\b.*\b(?:crane|hoist|chain block|jack|forklift|fork truck|telehandler|sling)s?\b|\b(?:crane|hoist|chain block|jack|forklift)s? (?:up|off|over|away)\b/i,
    advice:
      'Declare a state with energy: gravity (fitted, slung, landed) and what holds it (held-by), and the place below it as a zone.',
  },
  {
    says: 'works with flame or sparks',
    energies: ['thermal', 'chemical', 'fire'],
    keys: ['hot-work'],
    words:
      /\b(?:weld|braze|gouge|flame-?cut|light the torch|cut (?:\w+ ){0,4}with the torch|heat (?:\w+ ){0,4}with the torch)\b/i,
    advice: 'Declare a state with energy: thermal, or the place of the work as a zone, and the watch under keep.',
  },
  {
    says: 'works on something under pressure',
    energies: ['hydraulic', 'pneumatic', 'pressure', 'gas', 'steam'],
    keys: ['ramp'],
    words:
      /\b(?:pressuri[sz]e|charge the (?:accumulator|system|circuit)|vent the (?:vessel|accumulator|system|circuit)|inflate the tyre|blow down the)\b/i,
    advice: 'Declare a state with energy: hydraulic or pneumatic, its safe value, and what proves it.',
  },
  {
    says: 'works on something live or turning',
    energies: ['electrical', 'motion', 'mechanical', 'rotation'],
    keys: [],
    words:
      /\b(?:energi[sz]e|switch (?:the )?(?:\w+ ){0,3}on|turn the (?:\w+ )?isolator on|while (?:it|the \w+) (?:runs|turns|is running|is turning)|start the (?:engine|motor|drive|pump|fan|belt|conveyor|crusher|screen))\b/i,
    advice:
      'Declare the drive or the supply: states: { drive: { values: [running, stopped], start: running, end: stopped, energy: motion, safe: stopped, proved-by: test } }, or energy: electrical with live and isolated.',
  },
]

/** Things whose taking off opens the way to something that moves. */
const guard = /(?:^|-)(?:guard|fence|barrier|railing|interlock)s?(?:-|$)/

/**
 * What nobody declares cannot be proved: a step that lifts, burns, holds pressure, runs or takes a guard off in a
 * document without a state or a zone for it would leave every proof empty.
 */
export const undeclared: Check = {
  name: 'flow/undeclared',
  severity: 'error',
  title: 'Dangerous work stands in a document that declares nothing for it.',
  rules: ['LO-02', 'LO-14', 'LI-05'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const work of works) {
      if (isDeclared(procedure, work.energies)) continue
      for (const { step } of everyWrittenStep(procedure)) {
        const sign = signOf(step, work)
        if (sign === null) continue
        yield {
          at: sign,
          message: `Step ${step.number} ${work.says}, and the document has no state of that energy and no zone: nothing about it can be proved.`,
          advice: work.advice,
        }
        break
      }
    }
    if (isDeclared(procedure, ['motion', 'mechanical', 'electrical', 'rotation'])) return
    for (const { step } of everyWrittenStep(procedure)) {
      const off = step.removes.find((thing) => guard.test(thing.id))
      if (off === undefined) continue
      yield {
        at: off.at,
        message: `Step ${step.number} takes ${off.id} off, and nothing says what it guards: the document has no state of that energy and no zone.`,
        advice: 'Declare the drive behind it as a state with energy: motion, its safe value, and what proves it.',
      }
      break
    }
  },
}

/** A state of the energy, an energy of the machine that was dismissed with a reason, or any zone. */
function isDeclared({ states, zones, machine }: Procedure, energies: readonly string[]): boolean {
  if (zones.length > 0) return true
  if (states.some((state) => state.energy !== null && energies.includes(state.energy))) return true
  return (machine?.energies ?? []).some((energy) => energy.because !== null && energies.includes(energy.kind))
}

/** An oven is brought to a temperature: nothing in it is under pressure. */
function isOfPressure(ramp: PlainValue): boolean {
  const values = typeof ramp === 'object' && !Array.isArray(ramp) ? Object.values(ramp) : []
  return values.some((value) => {
    const limit = parseLimit(textIn(value, 'to') ?? '')
    return limit.ok && limit.value.kind === 'pressure'
  })
}

function signOf(step: Step, work: DangerousWork): Place | null {
  const entry = step.entries.find(
    (one) => work.keys.includes(one.key) && (one.key !== 'ramp' || isOfPressure(one.data)),
  )
  if (entry !== undefined) return entry.at
  return work.words?.test(step.text.plain) ? step.at : null
}
