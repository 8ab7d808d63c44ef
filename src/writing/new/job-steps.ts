import type { Answers } from './questions.ts'
import type { NewStep } from './skeleton.ts'

/** The steps of the work itself. */
export function jobSteps(answers: Answers): readonly NewStep[] {
  const { guard, lift, hotWork } = answers
  return [
    ...(guard ? [{ says: 'Take the guard off.', id: 'guard-off', block: drawnIn }] : []),
    ...(hotWork ? hotWorkSteps : []),
    ...(lift ? liftSteps : []),
    ...kinds[answers.kind],
    ...(lift ? landSteps : []),
    ...(guard ? [{ says: 'Fit the guard.', id: 'guard-on', block: ['refits: [guard]'] }] : []),
  ]
}

const drawnIn: readonly string[] = [
  'hazards:',
  '  drawn-in:',
  '    hazard: Parts that turn behind the guard draw in fingers and clothes.',
  '    consequence: They cut fingers off or break an arm.',
  '    avoid: Keep the guard on until the drive is proved to stand, and fit it before it runs.',
  '    severity: serious-injury',
  '    likelihood: could',
  '    energy: motion',
  'removes: [guard]',
]

const hotWorkSteps: readonly NewStep[] = [
  {
    says: 'Do the hot work, with the fire watch beside you.',
    id: 'hot-work',
    block: [
      'hazards:',
      '  fire-starts:',
      '    hazard: Sparks and heat set fire to what burns, also out of sight.',
      '    consequence: It burns people and the plant.',
      '    avoid: Clear or cover what burns, and keep the fire watch until nothing glows.',
      '    severity: serious-injury',
      '    likelihood: could',
      '    energy: thermal',
      'sets: { metal: hot }',
      'permit: { hot-work-permit: { by: supervisor, lapses: 8 h } }',
      'hot-work:',
      '  method: ??',
      '  closed-volumes: [??]',
      '  extinguisher: [??]',
      '  watch: { by: fire-watch, for: min 60 min }',
      '  distance: min 11 m',
      '  gas-test: ??',
      '  permit: hot-work-permit',
    ],
  },
  { says: 'Let it cool, and look for glowing spots.', id: 'cool', block: ['sets: { metal: cool }', 'wait: min ??'] },
]

const loadLines: readonly string[] = ['  load: { load: ??, with: [crane, sling], tag-lines: ??, directed: rigger }']

const liftSteps: readonly NewStep[] = [
  { says: '**Rigger:** Look the rigging over: tag legible, no cut, no stretched link.', id: 'look-rigging' },
  {
    says: '**Rigger:** Sling the load and take up the slack slowly, hands off sling and load.',
    id: 'sling',
    block: [
      'hazards:',
      '  load-falls:',
      '    hazard: The load falls, swings or tilts.',
      '    consequence: It crushes whoever is below or beside it.',
      '    avoid: Stay out from below it and out of its swing until it is landed.',
      '    severity: death',
      '    likelihood: could',
      '    energy: gravity',
      'sets: { load: slung }',
      'lift:',
      ...loadLines,
    ],
  },
  { says: '**Rigger:** Lift it clear and land it on timber.', id: 'land', block: ['sets: { load: landed }'] },
]

const landSteps: readonly NewStep[] = [
  {
    says: '**Rigger:** Sling the load again and take up the slack slowly, hands off sling and load.',
    id: 'sling-again',
    block: ['hazards: [load-falls]', 'sets: { load: slung }', 'lift:', ...loadLines],
  },
  { says: '**Rigger:** Set it in its place and take the sling off.', id: 'back', block: ['sets: { load: in-place }'] },
]

const kinds: Readonly<Record<Answers['kind'], readonly NewStep[]>> = {
  inspect: [
    {
      says: 'Look for cracks, wear, leaks and loose fasteners.',
      id: 'look',
      block: [
        'check: { looked-over: Nothing is cracked or loose and nothing leaks. }',
        'else: { stop: It needs a repair. Tell the supervisor what you found. }',
      ],
    },
    {
      says: 'Measure the wear.',
      id: 'measure',
      block: [
        'measure: { wear: "max ??, with gauge" }',
        'else: { stop: It is worn out. Tell the supervisor what you read. }',
      ],
    },
  ],
  replace: [
    { says: 'Take the old part off.', id: 'old-off', block: ['uses: [hand-tools]'] },
    {
      says: 'Clean the seat and look it over.',
      id: 'seat',
      block: [
        'check: { seat: The seat is clean and has no burr or crack. }',
        'else: { stop: The seat is damaged. Tell the supervisor. }',
      ],
    },
    { says: 'Fit the new part.', id: 'new-on', block: ['fits: [1 × new-part]'] },
    {
      says: 'Tighten the bolts.',
      id: 'tighten',
      block: [
        'torque:',
        '  bolts:',
        '    limit: ??',
        '    fastener: { count: ??, size: ??, grade: ?? }',
        '    lubrication: ??',
        '    pattern: cross',
        '    passes: [50 %, 100 %]',
        '    with: torque-wrench',
      ],
    },
  ],
  adjust: [
    {
      says: 'Measure the setting as it is.',
      id: 'as-found',
      block: ['measure: { setting-found: "??, with gauge, as found" }'],
    },
    {
      says: 'Set it.',
      id: 'set',
      block: [
        'set: { setting: "??, with gauge, as left" }',
        'else: { redo: this, at-most: 3, then: { stop: It cannot be set. Tell the supervisor. } }',
      ],
    },
  ],
  service: [
    { says: 'Wipe the fittings clean.', id: 'wipe', block: ['uses: [hand-tools]'] },
    { says: 'Fill in the lubricant.', id: 'fill', block: ['uses: [lubricant]'] },
    {
      says: 'Look for leaks.',
      id: 'leaks',
      block: ['check: { no-leaks: Nothing leaks. }', 'else: { stop: It leaks. Tell the supervisor. }'],
    },
  ],
}
