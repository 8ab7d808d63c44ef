import type { StepFile } from '../../../src/step-file/step-file.ts'
import {
  bullets,
  claim,
  consequence,
  counted,
  entry,
  hazard,
  hold,
  limit,
  paragraph,
  phase,
  reading,
  resource,
  state,
  step,
  stepFile,
  stepText,
  summarizeHolds,
  torque,
} from './step-file-parts.ts'

/**
 * A made-up hub job at the fictional Kestrel Ridge Quarry that uses everything a checklist can lay out.
 * No figure in it comes from a maker.
 */

const drawing = `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 220 120" width="220" height="120"><g fill="none" stroke="#000" stroke-width="1.5"><circle cx="60" cy="60" r="48"/><circle cx="60" cy="60" r="20"/></g><g font-family="Source Sans 3" font-size="11" text-anchor="middle">${[
  1, 3, 5, 2, 4, 6,
]
  .map((order, index) => {
    const angle = (index * Math.PI) / 3
    const x = Math.round(60 + 36 * Math.sin(angle))
    const y = Math.round(60 - 36 * Math.cos(angle))
    return `<circle cx="${x}" cy="${y}" r="8" fill="#fff" stroke="#000"/><text x="${x}" y="${y + 4}">${order}</text>`
  })
  .join('')}</g><text x="125" y="64" font-family="Source Sans 3" font-size="12">order of tightening</text></svg>`

const begin = {
  power: 'live',
  'park-brake': 'on',
  'brake-circuit': 'charged',
  axle: 'on-tyres',
  'hub.left': 'fitted',
  'hub.right': 'fitted',
}
const isolated = { ...begin, power: 'isolated', 'brake-circuit': 'bled' }
const raised = { ...isolated, axle: 'on-stands' }

const isolate = phase('isolate', '1', 'Park and isolate', {
  takes: '35 min',
  prose: [paragraph('The truck stands empty on level concrete with the body down on the frame.')],
  statesBefore: begin,
  statesAfter: isolated,
  entries: [entry('keep', 'Keep throughout', ['chocks', 'both rear wheels chocked, second fitter looks every 30 min'])],
  steps: [
    step('isolate/park', '1.1', 'Park the truck on the marked level pad and set the parking brake.', {
      sets: [claim('park-brake', 'on')],
      takes: '10 min',
    }),
    step('isolate/bleed', '1.2', 'Pump the brake pedal until the pedal goes hard.', {
      by: ['second'],
      sets: [claim('brake-circuit', 'bled')],
      waits: ['min 90 s'],
      details: [bullets('Count the strokes: more than 40 means a leaking valve.', 'Keep clear of the steering link.')],
    }),
    step('isolate/lock', '1.3', 'Turn the battery isolator off, then fit your own lock and tag.', {
      by: ['fitter', 'second'],
      acts: [
        { by: ['fitter'], text: stepText('Turn the isolator off and hold it down until the lock is in.') },
        { by: ['second'], text: stepText('Watch the dash lamps go out and call “dead”.') },
      ],
      locks: [counted('battery-isolator')],
      sets: [claim('power', 'isolated')],
      steps: [
        step('isolate/lock/a', '1.3a', 'Tag the isolator with name, date and shift.'),
        step('isolate/lock/b', '1.3b', 'Put the key in the lock box.', { locks: [counted('lock-box', '1')] }),
      ],
    }),
    step('isolate/read', '1.4', 'Read the brake pressure at the front test port.', {
      tries: 3,
      proves: [claim('brake-circuit', 'bled')],
      readings: [
        reading('brake-residual', 'measure', {
          limit: limit('max 0.5 MPa (max 72 psi)', 'MPa', 'max'),
          instrument: 'pressure-gauge',
        }),
        reading('start-tried', 'check', { asks: 'The engine does not start.' }),
      ],
      consequences: [
        consequence(
          { action: 'redo', targets: [{ id: 'isolate/bleed', number: '1.2' }], atMost: 3 },
          consequence({ reason: 'The circuit cannot be bled here.', leave: [claim('brake-circuit', 'charged')] }),
        ),
      ],
    }),
    step('isolate/proven', '1.5', 'Prove the isolation.', {
      proves: [claim('power', 'isolated')],
      holds: [
        hold(
          'isolate/proven',
          'supervisor',
          'Locks on, engine does not start, steering dead, brake pressure under 0.5 MPa.',
        ),
      ],
    }),
  ],
})

const raise = phase('raise', '2', 'Raise the axle', {
  takes: '40 min',
  statesBefore: isolated,
  statesAfter: raised,
  hazards: ['truck-off-jack'],
  steps: [
    step('raise/slack', '2.1', 'Slacken the wheel nuts on both sides by one half turn, no more.', {
      hazards: ['truck-off-jack'],
      uses: ['impact-wrench'],
      ppe: ['hearing protection'],
    }),
    step('raise/lift', '2.2', 'Raise the axle until both tyres clear the ground by 150 mm.', {
      by: ['fitter', 'second'],
      clear: ['under-axle'],
      needs: [claim('park-brake', 'on')],
      sets: [claim('axle', 'on-jack', 'on-stands')],
      takes: '15 min',
      entries: [
        entry('support', 'Support', ['axle', '28 t ± 10 %, on jack-1']),
        entry('exposed', 'Exposed', ['zone', 'under-axle'], ['because', 'pads cannot be seen from outside']),
      ],
    }),
    step('raise/seated', '2.3', 'Have the stands checked.', {
      proves: [claim('axle', 'on-stands')],
      holds: [
        hold(
          'raise/seated',
          'supervisor',
          'Both stands upright, on concrete, pads seated, jack unloaded, chocks in place.',
        ),
        hold('raise/seated', 'second', 'Nobody below the axle.', { kind: 'witness' }),
      ],
    }),
  ],
})

const hubOff = (side: 'left' | 'right') =>
  phase(`hub-off@${side}`, '3', 'Take the hub off and look at it', {
    position: { label: side.toUpperCase(), values: [{ name: 'each', text: side }] },
    takes: '1 h 30 min',
    where: [{ role: null, zones: [`wheel-end.${side}`] }],
    statesBefore: side === 'left' ? raised : { ...raised, 'hub.left': 'landed' },
    statesAfter: { ...raised, 'hub.left': 'landed', ...(side === 'right' ? { 'hub.right': 'landed' } : {}) },
    steps: [
      step(
        `hub-off@${side}/sling`,
        '3.1',
        'Fit the hub lifting bracket and take up the weight until the sling is just tight.',
        {
          by: ['rigger'],
          hazards: ['hub-swings', 'rim-bursts'],
          sets: [claim(`hub.${side}`, 'slung')],
          enters: [{ role: 'rigger', zones: [`wheel-end.${side}`] }],
          uses: ['chain-sling', 'hub-eye'],
          entries: [
            entry('lift', 'Lift', ['hub', '640 kg ± 10 %'], ['legs', '2 at 60° from horizontal'], ['with', 'crane-1']),
          ],
        },
      ),
      step(
        `hub-off@${side}/bolts`,
        '3.2',
        'Remove the twelve retaining-plate bolts and keep the shims with the plate.',
        {
          needs: [claim(`hub.${side}`, 'slung')],
          removes: [counted('plate-bolt', '12'), counted('shim-pack')],
          putsOn: [counted('spindle-sleeve', '1')],
        },
      ),
      step(`hub-off@${side}/play`, '3.3', 'Read the end play as found.', {
        details: [bullets('Push in, zero the indicator, pull out, read. Three times.')],
        readings: [
          reading('end-play-found', 'measure', {
            limit: limit('0.05 to 0.40 mm (0.002 to 0.015 in)', 'mm'),
            positions: ['first', 'second', 'third'],
            instrument: 'dial-indicator',
            instance: 'as-found',
            given: 'hub at shop temperature',
          }),
          reading('mean-play', 'derive', {
            limit: limit('max 0.40 mm', 'mm', 'max'),
            expression: 'mean(end-play-found) - 0.01 mm',
          }),
        ],
        consequences: [
          consequence({
            on: 'high',
            reading: 'end-play-found',
            action: 'continue',
            reason: 'The bearings are then renewed',
          }),
        ],
      }),
      step(`hub-off@${side}/look`, '3.4', 'Look at cups and cones for pits, blue marks and brinelling.', {
        readings: [
          reading('bearing-look', 'check', { passes: ['good'], fails: ['marked', 'failed'] }),
          reading('studs-bad', 'count', { limit: limit('max 0, of 24', '', 'max') }),
        ],
      }),
      step(`hub-off@${side}/decide`, '3.5', 'Decide what this hub needs.', {
        decide: {
          ask: 'What does this hub need?',
          branches: [
            {
              answer: null,
              when: 'bearing-look = good and end-play-found in limit',
              otherwise: false,
              target: { id: `reuse@${side}`, number: '3A' },
              action: 'go',
              reason: null,
              leave: [],
            },
            {
              answer: 'Cracked hub',
              when: null,
              otherwise: false,
              target: null,
              action: 'stop',
              reason: 'The hub goes to the bay foreman',
              leave: [],
            },
            {
              answer: null,
              when: null,
              otherwise: true,
              target: { id: `renew@${side}`, number: '3B' },
              action: 'go',
              reason: null,
              leave: [],
            },
          ],
        },
      }),
    ],
  })

const branches = (side: 'left' | 'right') => {
  const common = {
    kind: 'branch' as const,
    under: `hub-off@${side}`,
    position: { label: side.toUpperCase(), values: [{ name: 'each', text: side }] },
    statesBefore: { ...raised, [`hub.${side}`]: 'landed' },
    statesAfter: { ...raised, [`hub.${side}`]: 'landed' },
  }
  return [
    phase(`reuse@${side}`, '3A', 'Reuse the bearings', {
      ...common,
      steps: [step(`reuse@${side}/oil`, '3A.1', 'Oil the cones with clean hub oil and bag them with the side marked.')],
    }),
    phase(`renew@${side}`, '3B', 'Renew the bearings', {
      ...common,
      takes: '8 h to 24 h',
      steps: [
        step(`renew@${side}/chill`, '3B.1', 'Chill the new cups in the freezer for the whole night.', {
          waits: ['8 h to 24 h'],
          hazards: ['frozen-steel'],
          ppe: ['insulated gloves'],
          readings: [
            reading('cup-temp', 'measure', {
              limit: limit('under −15 °C (under 5 °F)', '°C', 'under'),
              instrument: 'contact-thermometer',
            }),
          ],
        }),
      ],
    }),
  ]
}

const endPlay = phase('end-play', '4', 'Set the end play', {
  takes: '2 h',
  where: [
    { role: 'fitter', zones: ['wheel-end.left'] },
    { role: 'rigger', zones: ['out'] },
  ],
  statesBefore: { ...raised, 'hub.left': 'slung' },
  statesAfter: raised,
  until: {
    first: 'end-play',
    condition: 'end-play in limit and roll in limit',
    atMost: 3,
    otherwise: consequence({ reason: 'Do not close the hub.', leave: [claim('hub.left', 'slung')] }),
  },
  steps: [
    step('end-play/plate', '4.1', 'Tighten the plate bolts in the drawn order.', {
      tries: 3,
      snug: [counted('plate-bolt', '12')],
      refits: [counted('plate-bolt', '12')],
      details: [{ kind: 'figure', file: 'figures/plate.svg', alt: 'Twelve bolts in a circle', caption: 'Plate bolts' }],
      torques: [
        torque('plate', '238 to 262 N·m (176 to 193 lbf·ft)', {
          fastener: '12 × M16 10.9',
          lubrication: 'oiled',
          pattern: 'star',
          passes: [
            { share: '50 %', text: '50 % — 125 N·m (92 lbf·ft)' },
            { share: '100 %', text: '100 % — 250 N·m (184 lbf·ft)' },
          ],
          tool: 'torque-wrench-1',
          facts: [{ name: 'turning', text: 'min 5 turns' }],
        }),
      ],
    }),
    step('end-play/play', '4.2', 'Read the end play.', {
      tries: 3,
      readings: [
        reading('end-play', 'measure', {
          limit: limit('0.10 to 0.20 mm (0.0040 to 0.0078 in)', 'mm'),
          positions: ['first', 'second'],
          instrument: 'dial-indicator',
          instance: 'as-left',
        }),
        reading('roll', 'measure', { limit: limit('40 to 120 N (9 to 26 lbf)', 'N'), instrument: 'spring-scale' }),
      ],
    }),
    step('end-play/verify', '4.3', 'Have the end play read a second time.', {
      tries: 3,
      holds: [
        hold('end-play/verify', 'supervisor', 'End play read by a second person, shim pack written down.', {
          kind: 'verify',
        }),
      ],
    }),
  ],
})

const lower = phase('lower', '5', 'Lower and release', {
  takes: '1 h',
  statesBefore: raised,
  statesAfter: begin,
  reverseOf: {
    phases: ['raise'],
    dropped: [{ number: '2.3', text: 'Have the stands checked.', because: 'it changes nothing' }],
  },
  steps: [
    step('lower/nuts', '5.1', 'Tighten the wheel nuts on both sides.', {
      undoes: 'raise/slack',
      torques: [
        torque('wheel-m22', '580 to 640 N·m (428 to 472 lbf·ft)', {
          fastener: '24 × M22 10.9',
          passes: [{ share: null, text: 'pass 1' }],
          only: { variant: 'wheel-stud', values: ['m22'] },
        }),
        torque('wheel-m24', '713 to 787 N·m (526 to 580 lbf·ft)', {
          fastener: '24 × M24 10.9',
          only: { variant: 'wheel-stud', values: ['m24'] },
        }),
      ],
    }),
    step('lower/spacer', '5.2', 'Fit the spacer rings behind the clamps.', {
      only: { variant: 'wheel-stud', values: ['m24'] },
      when: 'studs-bad = 0',
    }),
    step('lower/clear', '5.3', 'Have the site cleared and the locks taken off.', {
      unlocks: [counted('battery-isolator'), counted('lock-box')],
      sets: [claim('power', 'live')],
      holds: [
        hold('lower/clear', 'supervisor', 'Nobody at the truck, tools counted.', { timing: 'before' }),
        hold('lower/clear', 'fitter', 'All locks off.', { kind: 'review' }),
      ],
    }),
  ],
})

const zones: StepFile['zones'] = [
  {
    id: 'under-axle',
    name: 'under-axle',
    position: null,
    what: 'below the front axle and between the front wheels',
    safeWhen: [claim('power', 'isolated'), claim('axle', 'on-tyres', 'on-stands')],
    entry: null,
  },
  ...(['left', 'right'] as const).map((side) => ({
    id: `wheel-end.${side}`,
    name: 'wheel-end',
    position: side,
    what: 'within reach of the wheel end',
    safeWhen: [claim('power', 'isolated'), claim('axle', 'on-stands'), claim('brake-circuit', 'bled')],
    entry: 'supervisor',
  })),
]

const phases = [
  isolate,
  raise,
  hubOff('left'),
  ...branches('left'),
  hubOff('right'),
  ...branches('right'),
  endPlay,
  lower,
]

const used = (...where: readonly string[]) => where.map((one) => ({ phase: one, step: null }))

export const sampleStepFile: StepFile = stepFile({
  document: {
    number: 'KRQ-HT-021',
    title: 'Haul truck front wheel hub: remove, inspect, refit, set end play',
    revision: 'A',
    status: 'issued',
    date: '2026-03-02',
    site: 'Kestrel Ridge Quarry',
    author: 'shop trainer',
    supersedes: null,
    reviewBy: '2027-03-02',
    language: 'en',
    printUnits: ['metric', 'inch'],
    variants: [{ name: 'wheel-stud', values: ['m22', 'm24'] }],
    approvals: [
      { role: 'shop-trainer', name: null, date: null },
      { role: 'safety-officer', name: 'R. Okafor', date: '2026-02-27' },
    ],
  },
  purpose: [
    paragraph(
      'Both front hubs come off, are inspected, and go back with new seals and a measured end play. Every figure here is a stand-in for a trial. None comes from a maker.',
    ),
  ],
  roles: [
    { id: 'fitter', who: 'heavy-plant fitter', qualifications: ['plant fitter', 'own lock'], differentFrom: [] },
    { id: 'second', who: 'second fitter or apprentice', qualifications: ['own lock'], differentFrom: [] },
    { id: 'rigger', who: 'slinger', qualifications: ['basic rigging'], differentFrom: [] },
    {
      id: 'supervisor',
      who: 'shift supervisor',
      qualifications: [],
      differentFrom: ['fitter', 'second', 'rigger'],
    },
  ],
  machine: {
    id: 'haul-truck-60',
    name: '60 t rear-dump haul truck',
    serials: ['HT-11', 'HT-12', 'HT-14'],
    energies: [
      { id: 'battery', kind: 'electrical', magnitude: '24 V', state: 'power', because: null },
      { id: 'body', kind: 'gravity', magnitude: '9 t', state: null, because: 'the body stays down on the frame' },
    ],
    isolationPoints: [
      { id: 'battery-isolator', what: 'Battery isolator', where: 'left of the cab steps', energy: 'electrical' },
      { id: 'lock-box', what: 'Lock box', where: 'shop wall', energy: null },
    ],
    masses: [{ name: 'hub', text: '640 kg ± 10 %' }],
    notes: null,
  },
  states: [
    state('power', ['live', 'isolated'], { energy: 'electrical', safe: ['isolated'], provedBy: ['supervisor'] }),
    state('park-brake', ['on', 'off']),
    state('brake-circuit', ['charged', 'bled'], { energy: 'hydraulic', safe: ['bled'], provedBy: ['reading'] }),
    state('axle', ['on-tyres', 'on-jack', 'on-stands'], {
      energy: 'gravity',
      safe: ['on-tyres', 'on-stands'],
      provedBy: ['supervisor'],
    }),
    state('hub.left', ['fitted', 'slung', 'landed'], { energy: 'gravity' }),
    state('hub.right', ['fitted', 'slung', 'landed'], { energy: 'gravity' }),
    state('plate-bolt', ['fitted', 'removed'], { implied: true }),
    state('battery-isolator', ['unlocked', 'locked'], { implied: true }),
  ],
  zones,
  never: [
    { when: [claim('axle', 'on-jack'), claim('hub.left', 'slung')], because: 'the jack is no support for a hub lift' },
  ],
  hazards: [
    hazard('truck-off-jack', 'danger', {
      hazard: 'Axle falls off the jack',
      consequence: 'crushes anyone below it',
      avoid: 'Keep out from under until both stands are set and signed.',
      energyClass: 'gravity',
      controls: ['two stands under the spring-seat pads', 'chocks on both rear wheels'],
    }),
    hazard('hub-swings', 'warning', {
      hazard: 'Hub swings when it leaves the spindle',
      consequence: 'breaks arms and ribs against the frame',
      avoid: 'Keep the sling plumb and stand to the side.',
    }),
    hazard('rim-bursts', 'danger', {
      hazard: 'Rim bursts while the tyre holds air',
      consequence: 'throws the ring and kills',
      avoid: 'Let all air out, and run a wire through the valve.',
    }),
    hazard('frozen-steel', 'caution', {
      hazard: 'Steel at −20 °C',
      consequence: 'burns the skin',
      avoid: 'Wear insulated gloves.',
    }),
    hazard('oil-on-floor', 'notice', {
      hazard: 'Hub oil on the floor',
      consequence: 'spoils the drain',
      avoid: 'Set a tray.',
    }),
  ],
  resources: {
    tools: [
      resource('torque-wrench-1', 'Torque wrench', {
        facts: [{ name: 'range', text: '200 to 1 000 N·m' }],
        isInstrument: true,
        usedIn: used('end-play', 'lower'),
      }),
      resource('impact-wrench', 'Impact wrench', {
        facts: [{ name: 'size', text: '1 in drive' }],
        usedIn: used('raise'),
      }),
      resource('dial-indicator', 'Dial indicator', {
        facts: [{ name: 'resolution', text: '0.01 mm' }],
        isInstrument: true,
        usedIn: used('hub-off@left', 'hub-off@right', 'end-play'),
      }),
      resource('pressure-gauge', 'Pressure gauge', {
        facts: [{ name: 'range', text: '0 to 25 MPa' }],
        isInstrument: true,
        usedIn: used('isolate'),
      }),
    ],
    gear: [
      resource('jack-1', 'Jack', { facts: [{ name: 'capacity', text: '40 t' }], usedIn: used('raise') }),
      resource('chain-sling', 'Chain sling, two legs', {
        facts: [{ name: 'capacity', text: '3.15 t at 60°' }],
        usedIn: used('hub-off@left', 'hub-off@right'),
      }),
    ],
    parts: [
      resource('seal-group', 'Seal group', {
        number: '0451E2',
        quantity: '2',
        replace: 'always',
        usedIn: used('hub-off@left', 'hub-off@right'),
      }),
      resource('cone-inner', 'Inner cone', { number: 'KB-3307', quantity: '2', replace: 'on-condition' }),
    ],
    consumables: [resource('oil', 'Hub oil', { number: 'SAE 60 oil', quantity: '12 L', usedIn: used('end-play') })],
    ppe: ['hard hat', 'safety glasses', 'safety boots', 'rigger gloves'].map((name) => resource(name, name)),
  },
  tables: [
    {
      id: 'stud-torque',
      columns: ['stud', 'torque'],
      rows: [
        ['m22', '610 N·m'],
        ['m24', '750 N·m'],
      ],
    },
  ],
  emergency: [
    { name: 'stop', says: 'Shout STOP. Everyone steps out to the yellow line.' },
    { name: 'axle moves', says: 'Get out. Do not prop it by hand.' },
    { name: 'fire', says: 'Extinguisher at the bay door; out if it is not out in 30 s.' },
  ],
  prohibit: ['No one works alone below the axle.', 'No heat on a rim that holds air.'],
  entries: [
    entry('emergency', 'If it goes wrong', 'see first page'),
    entry('chart', 'Chart', ['noise', 'check the cones']),
  ],
  phases,
  holds: summarizeHolds(phases, zones),
  figures: [
    {
      file: 'procedures/hub/figures/plate.svg',
      alt: 'Twelve bolts in a circle',
      caption: 'Plate bolts',
      mediaType: 'image/svg+xml',
      content: drawing,
    },
  ],
  accepted: [
    {
      finding: 'measurement/limit-near-resolution',
      step: 'end-play/play',
      because: 'The indicator is read to half a division by two people.',
      role: 'safety-officer',
      messages: ['The band is five divisions of the dial indicator.'],
    },
  ],
  cautions: [
    'Local law, site rules and the maker’s instructions come first.',
    'Lifting plans, electrical isolation and hot work are for qualified and authorised people only.',
    'Values in the second unit were worked out from the first and rounded inward.',
  ],
})
