import type { Fault } from '../../findings/finding.ts'
import type { Procedure, Step } from '../../model/procedure.ts'
import type { Claim } from '../../model/states.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'

/** What people say when they have looked at an energy of this kind, beside the names of state and value. */
const spokenOf: readonly (readonly [energies: RegExp, words: RegExp])[] = [
  [/electric/i, /isolat|lock|tag|dead|volt|power|start|switch|breaker|fuse|earth|discharg|lead|cable/i],
  [
    /hydraul|pneum|pressur|steam|gas|vacuum/i,
    /pressur|gauge|bled|bleed|vent|drain|dead|air|empty|valve|deflat|filled?|seat/i,
  ],
  [
    /gravity/i,
    /stand|prop|pin|block|crib|chock|timber|hook|sling|hang|hung|land|lower|down|bear|load|weight|bolt|jack|hoist|stop/i,
  ],
  [
    /motion|mechanic|rotat|kinetic|spring|tension/i,
    /stand|still|stop|dead|chock|brake|pin|lock|start|try|tried|slack|relax|turn|mov|key|block/i,
  ],
  [/therm|heat|fire/i, /temperat|hot|cold|cool|degree|°|swept|wet|watch|clear|clean|chill|warm/i],
  [/chem|toxic|atmos/i, /gas|air|oxygen|vent|clean|empty|flush|rins/i],
]

/** A signature proves what its sentence says, and nothing that stands beside it. */
export const sentenceBesideProof: Check = {
  name: 'holds/sentence-beside-proof',
  severity: 'warning',
  title: 'What is signed for says nothing of what it is to prove.',
  rules: ['HP-01'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { step } of everyWrittenStep(procedure)) {
      const signed = step.holds.filter(
        ({ kind, timing }) => timing === 'after' && (kind === 'hold' || kind === 'verify'),
      )
      const [first] = signed
      if (first === undefined) continue
      const words = signed.map(({ says }) => says).join('\n')
      for (const claim of step.proves) {
        if (!isSignedFor(claim, step, procedure) || speaksOf(claim, words, procedure)) continue
        yield {
          at: first.at,
          message: `Step ${step.number} proves that ${claim.state} is ${claim.values.join(' or ')}, and "${first.says}" says nothing of it.`,
          advice: `Say in the sentence how the ${first.role} saw it, or take ${claim.state} out of proves.`,
          related: [{ at: claim.at, message: `It is to prove ${claim.state} here.` }],
        }
      }
    }
  },
}

/** Proved by a role that signs here, and not by a reading or a test of the step. */
function isSignedFor({ state }: Claim, step: Step, { states }: Procedure): boolean {
  const provedBy = states.find(({ id, name }) => id === state || name === state)?.provedBy ?? []
  return step.readings.length === 0 && step.holds.some(({ role }) => provedBy.includes(role))
}

function speaksOf({ state, values }: Claim, words: string, { states }: Procedure): boolean {
  const name = state.split('.')[0] ?? state
  const stems = [name, ...values].flatMap((word) => word.split('-')).filter((word) => word.length > 2)
  if (stems.some((word) => words.toLowerCase().includes(stemOf(word.toLowerCase())))) return true
  const energy = states.find((known) => known.id === state || known.name === state)?.energy ?? ''
  const spoken = spokenOf.filter(([energies]) => energies.test(energy)).map(([, said]) => said)
  // Of a state without an energy nobody knows how people speak of it.
  return spoken.length === 0 || spoken.some((said) => said.test(words))
}

/** `isolated`, `isolator` and `isolation` are one word here. */
const stemOf = (word: string): string => word.slice(0, Math.max(3, word.length - 3))
