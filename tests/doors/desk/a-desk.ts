import { cpSync, mkdirSync, mkdtempSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { type RunningDesk, serveDesk } from '../../../src/doors/desk/server/serve.ts'

export interface TestDesk extends RunningDesk {
  readonly root: string
  readonly remove: () => Promise<void>
}

/** A desk over a library of its own: our `shared/`, and the files given. */
export async function openDesk(files: Readonly<Record<string, string>>): Promise<TestDesk> {
  const root = makeLibrary(files)
  const desk = await serveDesk({ folder: root, port: 0 })
  const remove = async () => {
    await desk.close()
    rmSync(root, { recursive: true, force: true })
  }
  return { ...desk, root, remove }
}

export function makeLibrary(files: Readonly<Record<string, string>>): string {
  const root = mkdtempSync(join(tmpdir(), 'witnessmark-desk-'))
  cpSync('shared', join(root, 'shared'), { recursive: true })
  cpSync('witnessmark.yaml', join(root, 'witnessmark.yaml'))
  mkdirSync(join(root, 'procedures'))
  for (const [path, text] of Object.entries(files)) {
    mkdirSync(dirname(join(root, path)), { recursive: true })
    writeFileSync(join(root, path), text)
  }
  return root
}

/** The belts of the dust fan, as the guide for whoever writes has it: nothing to put right. */
export const dustFan = `---
number: KRQ-DF-004
title: "Dust fan: change the belts"
revision: A
status: for-review
date: 2026-04-01
---

# Dust fan: change the belts

The three belts of the dust fan are changed as a set. The figures are invented.

\`\`\`yaml
roles:
  fitter:     { who: plant fitter, qualification: [own lock] }
  supervisor: { who: shift supervisor, different-from: [fitter] }
states:
  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }
  rotor: { values: [turning, standing], start: turning, end: turning, energy: motion, safe: standing, proved-by: supervisor }
zones:
  belt-drive: { what: within reach of the belts and pulleys, safe-when: { power: isolated, rotor: standing } }
tools:
  torque-wrench-a: { name: torque wrench, measures: torque, range: 40 to 200 N·m, resolution: 1 N·m, accuracy: ± 4 % }
\`\`\`

## Isolate {#isolate}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Tell the control room that the fan stops, switch it off at the panel and wait until it stands. {#stop}
   \`\`\`yaml
   sets: { rotor: standing }
   wait: min 5 min
   \`\`\`
2. Turn the isolator off and fit your own lock. {#lock}
   \`\`\`yaml
   sets: { power: isolated }
   locks: [fan-isolator]
   \`\`\`
3. Press start at the panel. {#try}
   \`\`\`yaml
   check: { start-tried: The fan does not turn. }
   else: { stop: The isolator does not cut the power. }
   \`\`\`
4. Show the supervisor the isolation. {#proved}
   \`\`\`yaml
   hold:
     supervisor: I saw the lock on the isolator, the start tried and the rotor standing.
   proves: { power: isolated, rotor: standing }
   \`\`\`

## Change the belts {#belts}

\`\`\`yaml
by: fitter
where: belt-drive
hazards:
  nip-point:
    hazard: Belt and pulley draw fingers in.
    consequence: They cut fingers off.
    avoid: Turn the pulley by hand only, with your hand on the spokes.
    severity: serious-injury
    likelihood: could
    energy: motion
\`\`\`

1. Take off the belt guard. {#guard-off}
   \`\`\`yaml
   removes: [belt-guard]
   \`\`\`
2. Tighten the four motor bolts. {#motor-bolts}
   \`\`\`yaml
   torque:
     motor-bolts: 78 to 96 N·m, 4 × M14 8.8, dry, cross, passes 50 100 %, with torque-wrench-a
   \`\`\`
3. Fit the belt guard. {#guard-on}
   \`\`\`yaml
   refits: [belt-guard]
   \`\`\`

## Hand back {#hand-back}

\`\`\`yaml
by: fitter
where: out
\`\`\`

1. Take your lock off. {#unlock}
   \`\`\`yaml
   unlocks: [fan-isolator]
   \`\`\`
2. Have the fan cleared for power. {#cleared}
   \`\`\`yaml
   hold:
     supervisor: I saw the guard on, the tools counted and nobody at the fan.
   \`\`\`
3. Turn the isolator on and start the fan. {#start}
   \`\`\`yaml
   sets: { power: live, rotor: turning }
   \`\`\`
`

export const fanFile = 'procedures/dust-fan-belts/dust-fan-belts.md'
