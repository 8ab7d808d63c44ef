import type { StepFile } from '../../src/step-file/step-file.ts'
import { procedureText } from '../compile-text.ts'
import { stepFileUnchecked } from '../step-file-unchecked.ts'

const text = `
\`\`\`yaml
roles:
  fitter: { who: pump fitter }
  supervisor: { who: shift supervisor, different-from: fitter }
  watcher: { who: fire watch }
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor, lapses: 8 h }
  chamber: { values: [warm, cold], start: warm, end: cold }
hazards:
  pump-starts: { hazard: Pump starts by itself., consequence: The coupling takes your hand., avoid: Lock off and try to start it., severity: serious-injury, likelihood: could, energy: mechanical }
parts:
  seal: { name: shaft seal, number: S-40, quantity: 1 }
\`\`\`

## Isolate the pump {#isolate}

1. Switch the pump off, then fit your own lock.
   \`\`\`yaml
   by: fitter
   hazards: [pump-starts]
   locks: [pump-isolator]
   sets: { power: isolated }
   \`\`\`
2. Try to start the pump. {#try}
   \`\`\`yaml
   by: fitter
   measure: { voltage: max 5 V }
   else: { redo: this, at-most: 2, then: stop }
   proves: { power: isolated }
   hold: { supervisor: Lock on and pump dead. }
   \`\`\`

## Change the seal {#seal}

1. Heat the old seal and cut it off.
   \`\`\`yaml
   by: fitter
   needs: { power: isolated }
   hot-work: { method: gas cutting, closed-volumes: none, watch: { by: watcher, for: min 60 min }, distance: min 11 m, extinguisher: powder }
   \`\`\`
2. Let the chamber cool. {#cool}
   \`\`\`yaml
   by: fitter
   wait: min 20 min
   sets: { chamber: cold }
   \`\`\`
3. Wipe the bore.
   \`\`\`yaml
   by: fitter
   when: chamber = cold
   needs: { power: isolated }
   \`\`\`
4. Press the new seal in.
   \`\`\`yaml
   by: fitter
   needs: { power: isolated }
   wait: 10 min to 40 min, after cool
   fits: [seal]
   hold: { supervisor: Seal flush. }
   \`\`\`

## Give the pump back {#back}

1. Take your lock off and switch the pump on.
   \`\`\`yaml
   by: fitter
   hazards: [pump-starts]
   unlocks: [pump-isolator]
   sets: { power: live }
   \`\`\`
`

/** A made-up job on a pump of the fictional Kestrel Ridge Quarry: waits, a fire watch, a lock, a proof that ages. */
export function pumpJob(): StepFile {
  const stepFile = stepFileUnchecked(procedureText(text))
  return {
    ...stepFile,
    document: {
      ...stepFile.document,
      number: 'KRQ-PU-007',
      title: 'Slurry pump: change the shaft seal',
      status: 'issued',
    },
  }
}
