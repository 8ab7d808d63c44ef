import { parseLimit } from '../../../src/quantities/parse-limit.ts'
import { printLimit } from '../../../src/quantities/print-limit.ts'
import type { PrintedLimit } from '../../../src/quantities/quantity-types.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import {
  claim,
  consequence,
  counted,
  entry,
  hazard,
  hold,
  paragraph,
  phase,
  reading,
  state,
  step,
  stepFile,
  summarizeHolds,
  torque,
} from '../checklist/step-file-parts.ts'

/** A limit as the compiler prints it, from what an author types. */
export function typedLimit(text: string): PrintedLimit {
  const parsed = parseLimit(text)
  if (!parsed.ok) throw new Error(parsed.problem.message)
  return printLimit(parsed.value, { systems: ['metric', 'inch'] })
}

const isolate = phase('isolate', '1', 'Stop and isolate the belt', {
  statesBefore: { power: 'live', 'take-up': 'tensioned' },
  statesAfter: { power: 'isolated', 'take-up': 'tensioned' },
  steps: [
    step('isolate/lock', '1.1', 'Turn the isolator off, then fit your own lock and tag.', {
      hazards: ['belt-starts'],
      locks: [counted('belt-isolator')],
      sets: [claim('power', 'isolated')],
    }),
    step('isolate/pressure', '1.2', 'Read the pressure of the take-up cylinder.', {
      tries: 2,
      readings: [
        reading('pressure', 'measure', { limit: typedLimit('max 0.5 MPa'), instrument: 'pressure-gauge' }),
        reading('start-tried', 'check', { asks: 'The belt does not start.' }),
      ],
      consequences: [
        consequence(
          { action: 'redo', targets: [{ id: 'isolate/lock', number: '1.1' }], atMost: 2 },
          consequence({ reason: 'The cylinder cannot be bled here.', leave: [claim('take-up', 'tensioned')] }),
        ),
      ],
    }),
    step('isolate/proven', '1.3', 'Prove the isolation.', {
      proves: [claim('power', 'isolated')],
      holds: [hold('isolate/proven', 'supervisor', 'Lock on, belt does not start, pressure under 0.5 MPa.')],
    }),
  ],
})

const align = phase('align', '2', 'Set the tail pulley', {
  statesBefore: { power: 'isolated', 'take-up': 'tensioned' },
  statesAfter: { power: 'isolated', 'take-up': 'slack' },
  steps: [
    step('align/tighten', '2.1', 'Tighten the four housing bolts.', {
      torques: [
        torque('housing-m20', '350 to 430 N·m (259 to 317 lbf·ft)', {
          fastener: '4 × M20 8.8',
          passes: [
            { share: '60 %', text: '60 % — 234 N·m (173 lbf·ft)' },
            { share: '100 %', text: '100 % — 390 N·m (288 lbf·ft)' },
          ],
          only: { variant: 'bolt', values: ['m20'] },
        }),
        torque('housing-m24', '600 to 740 N·m (443 to 545 lbf·ft)', {
          fastener: '4 × M24 8.8',
          passes: [{ share: '100 %', text: '100 % — 670 N·m (494 lbf·ft)' }],
          only: { variant: 'bolt', values: ['m24'] },
        }),
      ],
    }),
    step('align/takeup', '2.2', 'Measure the take-up at both sides.', {
      tries: 3,
      readings: [
        reading('takeup', 'measure', {
          limit: typedLimit('40 to 50 mm'),
          positions: ['left', 'right'],
          instrument: 'steel-rule',
        }),
        reading('skew', 'derive', {
          limit: typedLimit('max 3 mm'),
          expression: 'abs(takeup.left - takeup.right)',
        }),
      ],
      consequences: [
        consequence({ action: 'redo', targets: [{ id: 'align/takeup', number: '2.2' }], atMost: 3 }, consequence({})),
      ],
    }),
    step('align/lagging', '2.3', 'Look at the lagging of the pulley.', {
      readings: [reading('lagging', 'check', { passes: ['good'], fails: ['worn', 'torn'] })],
    }),
    step('align/decide', '2.4', 'Decide what the lagging needs.', {
      decide: {
        ask: 'What does the lagging need?',
        branches: [
          {
            answer: null,
            when: 'lagging = good',
            otherwise: false,
            target: { id: 'keep', number: '2A' },
            action: 'go',
            reason: null,
            leave: [],
          },
          {
            answer: 'Shell cracked',
            when: null,
            otherwise: false,
            target: null,
            action: 'stop',
            reason: 'The pulley goes to the shop.',
            leave: [],
          },
          {
            answer: null,
            when: null,
            otherwise: true,
            target: { id: 'renew', number: '2B' },
            action: 'go',
            reason: null,
            leave: [],
          },
        ],
      },
    }),
  ],
})

const branch = (id: string, number: string, title: string, text: string) =>
  phase(id, number, title, {
    kind: 'branch',
    under: 'align',
    steps: [step(`${id}/do`, `${number}.1`, text)],
  })

const release = phase('release', '3', 'Release', {
  statesBefore: { power: 'isolated', 'take-up': 'slack' },
  statesAfter: { power: 'live', 'take-up': 'tensioned' },
  prose: [paragraph('Nobody is at the belt.')],
  steps: [
    step('release/scraper', '3.1', 'Set the scraper back.', {
      when: 'scraper-fitted = yes',
      entries: [entry('handle', 'Lift by hand', ['scraper', '14 kg, by 1'])],
    }),
    step('release/clear', '3.2', 'Take the lock off.', {
      unlocks: [counted('belt-isolator')],
      sets: [claim('power', 'live')],
      holds: [
        hold('release/clear', 'supervisor', 'Nobody at the belt, guards on.', { timing: 'before' }),
        hold('release/clear', 'fitter', 'Tools counted.', { kind: 'witness' }),
      ],
    }),
  ],
})

const phases = [
  isolate,
  align,
  branch('keep', '2A', 'Keep the lagging', 'Wipe the lagging clean.'),
  branch('renew', '2B', 'Renew the lagging', 'Fit new lagging strips.'),
  release,
]

/** A made-up job on the fictional belt BC-3 of the Kestrel Ridge Quarry: what the page must be able to do, once each. */
export const beltJob: StepFile = stepFile({
  document: {
    ...stepFile().document,
    number: 'KRQ-BC-014',
    title: 'Belt conveyor tail pulley: isolate, set, release',
    revision: 'C',
    variants: [{ name: 'bolt', values: ['m20', 'm24'] }],
  },
  roles: [
    { id: 'fitter', who: 'belt fitter', qualifications: ['own lock'], differentFrom: [] },
    { id: 'supervisor', who: 'shift supervisor', qualifications: [], differentFrom: ['fitter'] },
  ],
  states: [
    state('power', ['live', 'isolated'], { energy: 'electrical', safe: ['isolated'], provedBy: ['supervisor'] }),
    state('take-up', ['tensioned', 'slack'], { energy: 'gravity', safe: ['slack'] }),
  ],
  hazards: [
    hazard('belt-starts', 'danger', {
      hazard: 'Belt starts by itself',
      consequence: 'draws you in at the pulley and kills',
      avoid: 'Lock off and try to start it before any hand goes in.',
    }),
  ],
  emergency: [{ name: 'caught', says: 'Pull the trip wire. Do not cut the belt.' }],
  phases,
  holds: summarizeHolds(phases, []),
})
