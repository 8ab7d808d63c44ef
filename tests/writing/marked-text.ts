import { openLibrary } from '../../src/compile.ts'
import { type OpenText, openText } from '../../src/writing/open-text.ts'
import { mapLibrary } from '../map-library.ts'

export const file = 'procedures/example/example.md'

/** A small job with something of everything that can be named. `STEP`, `PHASE`, `DOCUMENT` and `PROSE` are places to type at. */
const job = `---
number: KRQ-TX-001
title: Change a return idler
revision: A
status: draft
date: 2026-03-02
variants: { wheel-stud: [m22, m24] }
FRONT---

# Change a return idler

PROSE

\`\`\`yaml
roles: [fitter, supervisor]
machine: bc-3
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
  hub: { each: [left, right], values: [fitted, slung], start: fitted, end: fitted }
zones:
  under-belt: { what: below the return belt, safe-when: { power: isolated } }
tools: [torque-wrench-a]
parts:
  belt-set: { number: KB-5120, quantity: 1, replace: always }
DOCUMENT\`\`\`

## Isolate {#isolate}

\`\`\`yaml
where: out
PHASE\`\`\`

1. Turn the isolator off. {#turn-off}
   \`\`\`yaml
   sets: { power: isolated }
   locks: [bc-3-iso]
   \`\`\`
2. **Fitter:** Take the guard off and tighten the bolts. {#tighten}
   \`\`\`yaml
   removes: [belt-guard]
   torque:
     housing-bolts: 350 to 430 N·m, 4 × M20 8.8, oiled, with torque-wrench-a
   measure:
     end-play: 0.10 to 0.20 mm, at left right
   STEP
   \`\`\`
3. Put the guard back; the bolts have [=housing-bolts]. {#guard-on}
   \`\`\`yaml
   refits: [belt-guard]
   \`\`\`
`

export const sharedFiles: Readonly<Record<string, string>> = {
  'shared/tools/workshop.yaml':
    'source: Invented.\nitems:\n  torque-wrench-a: { name: torque wrench, size: 1/2 in drive }\n',
  'shared/instruments/workshop.yaml':
    'source: Invented.\nitems:\n  dial-indicator: { name: dial indicator, measures: length, range: 0 to 10 mm, resolution: 0.01 mm }\n',
  'shared/ppe/workshop.yaml': 'source: Invented.\nitems:\n  hard-hat: { name: hard hat }\n  gloves: { name: gloves }\n',
  'shared/roles/workshop.yaml':
    'source: Invented.\nitems:\n  fitter: { who: plant fitter }\n  supervisor: { who: shift supervisor }\n  rigger: { who: rigger }\n',
  'shared/hazards/plant.yaml':
    'source: Invented.\nitems:\n  nip-point: { hazard: Belt and pulley draw fingers in., consequence: They cut fingers off., avoid: Keep hands out., severity: serious-injury, likelihood: could, energy: motion }\n',
  'shared/machines/bc-3.yaml':
    'source: Invented.\nname: belt conveyor 3\nenergies:\n  power: { kind: electrical, magnitude: 400 V, isolated-by: bc-3-iso }\n  take-up: { kind: gravity, magnitude: 600 kg }\nisolation-points:\n  bc-3-iso: { what: isolator of the drive, where: switch room, energy: power }\nmasses:\n  idler: 45 kg ± 5 %\n',
  'shared/fragments/lock-and-try.md':
    '---\nsource: Invented.\nparameters:\n  isolator: what it is called\n---\n\n1. Turn the (=isolator) off.\n',
}

export interface Typed {
  readonly front?: string
  readonly prose?: string
  readonly document?: string
  readonly phase?: string
  readonly step?: string
}

/** The job with something typed into it; `¦` is the cursor. */
export function openJob(typed: Typed = {}): { readonly open: OpenText; readonly offset: number } {
  return openAt(
    job
      .replace('FRONT', typed.front ?? '')
      .replace('PROSE', typed.prose ?? 'The idler is changed.')
      .replace('DOCUMENT', typed.document ?? '')
      .replace('PHASE', typed.phase ?? '')
      .replace('STEP', (typed.step ?? 'uses: torque-wrench-a').replaceAll('\n', '\n   ')),
  )
}

/** Any text, opened over the shared files, with the offset of `¦` in it. */
export function openAt(marked: string, files = sharedFiles): { readonly open: OpenText; readonly offset: number } {
  const text = marked.replace('¦', '')
  const library = openLibrary(mapLibrary({ [file]: text, ...files }))
  return { open: openText(file, text, library), offset: marked.indexOf('¦') }
}

/** The job with the cursor behind the first place where these words stand. */
export function openJobAt(words: string): { readonly open: OpenText; readonly offset: number } {
  const { open } = openJob()
  const at = open.text.indexOf(words)
  if (at < 0) throw new Error(`"${words}" does not stand in the job`)
  return { open, offset: at + words.length }
}
