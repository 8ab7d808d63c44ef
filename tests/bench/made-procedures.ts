import { seededChoice } from './measure.ts'

/** One kind of phase: what it adds to the document block, and its text. Every name in it carries the number `n`. */
interface MadePhase {
  readonly states?: readonly string[]
  readonly zones?: readonly string[]
  readonly never?: readonly string[]
  readonly tables?: readonly string[]
  readonly chart?: readonly string[]
  readonly variants?: readonly string[]
  readonly text: string
}

type Shape = (n: number, say: Say) => MadePhase

/** Words and figures that differ from one procedure to the next. */
interface Say {
  readonly thing: () => string
  /** A whole number, from and below. */
  readonly whole: (from: number, below: number) => number
}

const THINGS =
  'guard cover bracket housing flange plate bearing shaft coupling roller chute screen idler pulley scraper liner hopper gate valve pump'.split(
    ' ',
  )
const SIDES = 'front rear upper lower inner outer feed discharge drive tail'.split(' ')

/** A text of a procedure: `count` phases, each of the next shape from `first` on. No two seeds give the same text. */
export function madeProcedure(seed: number, count: number, first = seed): string {
  const choose = seededChoice(seed)
  const pick = (list: readonly string[]): string => list[choose(list.length)] ?? ''
  const say: Say = {
    thing: () => `${pick(SIDES)} ${pick(THINGS)} ${choose(90) + 10}`,
    whole: (from, below) => from + choose(below - from),
  }
  const made = Array.from({ length: count }, (_, index) => {
    const shape = shapes[(first + index) % shapes.length] ?? isolate
    return shape(index + 1, say)
  })
  const under = (key: string, lines: readonly string[]): readonly string[] =>
    lines.length === 0 ? [] : [`${key}:`, ...lines.map((line) => `  ${line}`)]
  const all = (part: Exclude<keyof MadePhase, 'text'>): readonly string[] => made.flatMap((phase) => phase[part] ?? [])
  return [
    '---',
    `number: KRQ-MB-${String(seed % 1000).padStart(3, '0')}`,
    `title: "Conveyor ${seed}: service of the ${say.thing()}"`,
    'revision: A',
    'status: draft',
    'date: 2026-03-02',
    'site: Kestrel Ridge Quarry',
    'print-units: [metric, inch]',
    ...under('variants', [...new Set(all('variants'))]),
    '---',
    '',
    `The ${say.thing()} and the ${say.thing()} are serviced together. **The figures are invented.** Plan ${say.whole(2, 9)} shifts.`,
    '',
    '```yaml',
    ...DOCUMENT,
    ...under('states', [
      'power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor }',
      ...all('states'),
    ]),
    ...under('zones', [
      'belt-side: { what: within reach of the belt, safe-when: { power: isolated } }',
      ...all('zones'),
    ]),
    ...under('never', all('never')),
    ...under('tables', all('tables')),
    ...under('chart', all('chart')),
    '```',
    '',
    OPENING,
    ...made.map((phase) => phase.text),
    CLOSING,
  ].join('\n')
}

const DOCUMENT = [
  'roles:',
  '  fitter: { who: plant fitter, qualification: [own lock] }',
  '  second: { who: plant fitter, qualification: [own lock] }',
  '  rigger: { who: rigger, qualification: [slinging] }',
  '  supervisor: { who: shift supervisor, different-from: [fitter, second, rigger] }',
  'tools:',
  '  gauge: { name: dial indicator, measures: length, range: 0 to 50 mm, resolution: 0.01 mm, accuracy: ± 0.01 mm }',
  '  wrench: { name: torque wrench, measures: torque, range: 40 to 900 N·m, resolution: 1 N·m, accuracy: ± 4 % }',
  '  thermometer: { name: contact thermometer, measures: temperature, range: 0 to 300 °C, resolution: 0.1 K, accuracy: ± 1 K }',
  'gear:',
  '  chain-block: { name: chain block, capacity: 3 t, inspection: before each shift }',
  '  sling: { name: two-leg chain sling, capacity: 4 t, inspection: before each shift }',
  'parts:',
  '  seal: { name: shaft seal, number: KB-1201, quantity: 90, replace: always }',
  'consumables:',
  '  grease: { name: bearing grease, number: KB-0017, quantity: 5 kg }',
  'ppe: [hard hat, safety glasses]',
  'emergency: { fire: "Out, call, muster." }',
  'prohibit: [Nobody works under a raised load.]',
]

const OPENING = phase(
  'Stop and lock',
  'stop-and-lock',
  ['by: fitter', 'where: out'],
  [
    [
      'Switch the belt off at the panel, turn the isolator off and fit your lock.',
      'sets: { power: isolated }',
      'locks: [belt-isolator]',
    ],
    [
      'Press start at the panel.',
      'check: { start-tried: Nothing moves. }',
      'else: { stop: The isolator does not cut the power. }',
    ],
    [
      'Show the supervisor the lock. {#locked}',
      'hold: { supervisor: I saw the lock on and the start tried. }',
      'proves: { power: isolated }',
    ],
  ],
)

const CLOSING = phase(
  'Give back',
  'give-back',
  ['by: fitter', 'where: out'],
  [
    [
      'Count everyone out and take your lock off.',
      'clear: { zones: [belt-side], by: second }',
      'unlocks: [belt-isolator]',
    ],
    [
      'Turn the isolator on.',
      'hold-before: { supervisor: I saw the lock off and nobody at the belt. }',
      'sets: { power: live }',
    ],
  ],
)

/** Steps: words first, then the lines of the block; a line that begins with `-` stands below the block. */
function phase(
  title: string,
  id: string,
  block: readonly string[],
  steps: readonly (readonly string[])[],
  prose = '',
): string {
  const written = steps.flatMap(([words = '', ...lines], index) => {
    const inside = lines.filter((line) => !/^(?:- |\d\. )/.test(line))
    const below = lines.filter((line) => /^(?:- |\d\. )/.test(line))
    const number = `${index + 1}.`.padEnd(4)
    return [
      `${number}${words}`,
      ...(inside.length > 0 ? ['    ```yaml', ...inside.map((line) => `    ${line}`), '    ```'] : []),
      ...below.map((line) => `    ${line}`),
    ]
  })
  return [
    `## ${title} {#${id}}`,
    '',
    ...(prose === '' ? [] : [prose, '']),
    '```yaml',
    ...block,
    '```',
    '',
    ...written,
    '',
  ].join('\n')
}

const AT_BELT = ['by: [fitter, second]', 'where: belt-side', 'takes: least 20 min, likely 30 min, most 60 min']

const isolate: Shape = (n, say) => ({
  states: [
    `oil-${n}: { values: [charged, bled], start: charged, end: charged, energy: hydraulic, safe: bled, proved-by: reading }`,
  ],
  zones: [`press-${n}: { what: beside the take-up cylinder ${n}, safe-when: { oil-${n}: bled, power: isolated } }`],
  text: phase(
    `Let the oil down at the ${say.thing()}`,
    `bleed-${n}`,
    ['by: fitter', 'where: out'],
    [
      [`Open the drain of the ${say.thing()}. {#drain-${n}}`, `sets: { oil-${n}: bled }`],
      [
        'Read the pressure.',
        `measure: { rest-${n}: max ${say.whole(2, 9)}0 kPa }`,
        `else: { redo: [drain-${n}, this], at-most: 3, then: { stop: The oil does not go down. } }`,
        `proves: { oil-${n}: bled }`,
      ],
      [`Clean the ${say.thing()}.`, `where: press-${n}`],
      ['Close the drain.', 'where: out', `sets: { oil-${n}: charged }`],
    ],
  ),
})

const measured: Shape = (n, say) => ({
  text: phase(`Measure the ${say.thing()}`, `measure-${n}`, AT_BELT, [
    [`Clean the ${say.thing()} with a dry cloth.`],
    [
      `Measure the gap at four places. {#gap-${n}}`,
      `measure: { gap-${n}: "0.${say.whole(10, 30)} to 1.${say.whole(10, 90)} mm, at top bottom left right, with gauge, as found" }`,
      `derive: { spread-${n}: "max(gap-${n}) - min(gap-${n}), max 0.8 mm" }`,
      `else: { redo: [this], at-most: 3, then: { stop: The gap cannot be set. } }`,
    ],
    [`Write [=spread-${n}] on the card of step [gap](#gap-${n}).`],
  ]),
})

const tightened: Shape = (n, say) => ({
  text: phase(`Tighten the ${say.thing()}`, `tighten-${n}`, AT_BELT, [
    [`Fit a new seal at the ${say.thing()}.`, 'fits: [1 × seal]', 'uses: [grease]'],
    ['Run the bolts down by hand.', `snug: [bolts-${n}]`],
    [
      'Tighten the bolts in a cross.',
      'torque:',
      `  bolts-${n}: ${say.whole(180, 195)} to ${say.whole(215, 235)} N·m, 4 × M16 8.8, oiled, cross, passes 50 100 %, with wrench`,
    ],
  ]),
})

const lifted: Shape = (n, say) => ({
  states: [
    `load-${n}: { values: [seated, slung, landed], start: seated, end: seated, energy: gravity, safe: [seated, landed], held-by: [{ load-${n}: seated }, { load-${n}: slung }, { load-${n}: landed }], proved-by: supervisor }`,
  ],
  zones: [`below-${n}: { what: below the load ${n}, safe-when: { load-${n}: [seated, landed] } }`],
  text: phase(
    `Lift the ${say.thing()}`,
    `lift-${n}`,
    [
      'by: [rigger, fitter]',
      'where: out',
      `keep: { clear-below-${n}: { says: Nobody is below the load., by: rigger } }`,
    ],
    [
      [
        `**Rigger:** Sling the ${say.thing()} and take up the weight.`,
        `sets: { load-${n}: slung }`,
        `lift: { load-${n}: "${say.whole(3, 9)}50 kg ± 10 %, legs 2, angle 60° from horizontal, with chain-block sling, tag-lines 1" }`,
      ],
      ['Set it down on the timber.', `sets: { load-${n}: landed }`],
      [
        'Lift it back on its seat.',
        `needs: { load-${n}: landed }`,
        `sets: { load-${n}: slung }`,
        `lift: { load-${n}: "650 kg ± 10 %, legs 2, angle 60° from horizontal, with chain-block sling, tag-lines 1" }`,
      ],
      [
        'Lower it and unhook.',
        `sets: { load-${n}: seated }`,
        'hold: { supervisor: I saw it seated and the hook off. }',
        `proves: { load-${n}: seated }`,
      ],
    ],
  ),
})

const carried: Shape = (n, say) => ({
  text: phase(`Carry the ${say.thing()}`, `carry-${n}`, AT_BELT, [
    [
      `**Fitter and second:** Lift the ${say.thing()} off its seat.`,
      `handle: { cover-${n}: "${say.whole(20, 40)} kg, by 2, reach 300 mm, from-height 700 mm, to-height 900 mm" }`,
    ],
    [
      'Look at the seat.',
      `check: { seat-${n}: { pass: good, fail: [worn, cracked] } }`,
      'else: { stop: The seat is worn. }',
    ],
    ['Put it back on its seat.', `handle: { cover-${n}: "${say.whole(20, 40)} kg, by 2" }`],
  ]),
})

const burned: Shape = (n, say) => ({
  text: phase(
    `Cut the ${say.thing()}`,
    `cut-${n}`,
    [
      'by: fitter',
      'where: belt-side',
      `permit: { hot-work-${n}: { by: supervisor, lapses: 8 h, says: The area is swept and wet. } }`,
    ],
    [
      ['Wet the floor all round and take the belt scrap away.'],
      [
        `Cut the worn edge of the ${say.thing()}.`,
        'hot-work:',
        '  method: gas cutting',
        `  on: worn edge ${n}`,
        '  closed-volumes: ["hollow roller, vented"]',
        '  extinguisher: [powder-9kg]',
        '  watch: { by: rigger, for: min 60 min }',
        '  distance: min 11 m',
        'ppe: [face shield]',
      ],
      [`Feel for warm places round the ${say.thing()}.`, 'wait: min 60 min'],
    ],
  ),
})

const decided: Shape = (n, say) => ({
  text: [
    phase(`Judge the ${say.thing()}`, `judge-${n}`, AT_BELT, [
      [`Read the wear of the ${say.thing()}.`, `measure: { wear-${n}: "max ${say.whole(4, 9)} mm, with gauge" }`],
      [
        'Decide what it needs.',
        'decide:',
        `  ask: What does part ${n} need?`,
        '  branches:',
        `    - { when: wear-${n} in limit, go: keep-${n} }`,
        `    - { otherwise: renew-${n} }`,
      ],
    ]),
    `### Keep it ${n} {#keep-${n}}`,
    '',
    '1. Grease it.',
    '   ```yaml',
    '   uses: [grease]',
    '   ```',
    '',
    `### Renew it ${n} {#renew-${n}}`,
    '',
    `1. Fetch a new ${say.thing()} from the store.`,
    '2. Fit it, and mark it with the date.',
    '',
  ].join('\n'),
})

const sided: Shape = (n, say) => ({
  states: [`side-${n}: { each: [left, right], values: [fitted, off], start: fitted, end: fitted }`],
  text: phase(
    `Change the ${say.thing()} on both sides`,
    `sides-${n}`,
    ['repeat: { each: [left, right] }', ...AT_BELT],
    [
      ['Take the cover off on this side.', `removes: [6 × cover-bolt-${n}]`, `sets: { side-${n}: off }`],
      [
        'Read the play.',
        `measure: { play-${n}: "0.1 to 0.${say.whole(4, 9)} mm, with gauge" }`,
        `else: { redo: this, at-most: 2, then: { stop: The bearing is worn., leave: { side-${n}: off } } }`,
      ],
      ['Fit the cover on this side.', `refits: [6 × cover-bolt-${n}]`, `sets: { side-${n}: fitted }`],
    ],
  ),
})

const tried: Shape = (n, say) => ({
  text: phase(
    `Set the ${say.thing()} by tries`,
    `tries-${n}`,
    [...AT_BELT, `repeat: { until: slack-${n} in limit, at-most: 4, else: { stop: It cannot be set. } }`],
    [
      [`Turn the screw of the ${say.thing()} by half a turn.`],
      ['Read the slack.', `measure: { slack-${n}: "${say.whole(2, 5)} to ${say.whole(6, 9)} mm, with gauge" }`],
    ],
  ),
})

const undone: Shape = (n, say) => ({
  text: [
    phase(`Take off the ${say.thing()}`, `off-${n}`, AT_BELT, [
      [
        `Slacken the bolts. {#slack-${n}}`,
        `removes: [8 × frame-bolt-${n}]`,
        'undo:',
        '  do: Tighten the bolts in a star.',
        '  torque:',
        `    frame-${n}: ${say.whole(40, 44)} to ${say.whole(48, 56)} N·m, 8 × M10 8.8, dry, star, passes 50 100 %, with wrench`,
      ],
      [`Take the ${say.thing()} away. {#away-${n}}`, `removes: [frame-${n}]`, `undo: Put the ${say.thing()} back.`],
    ]),
    phase(
      'Put it on again',
      `on-${n}`,
      [
        ...AT_BELT,
        `reverse: [off-${n}]`,
        'extra:',
        '  - do: Look that the frame stands square.',
        `    after: away-${n}`,
        '    by: fitter',
        `    check: { square-${n}: The frame stands square. }`,
        '    else: { stop: The frame is bent. }',
      ],
      [],
    ),
  ].join('\n'),
})

const shared: Shape = (n, say) => ({
  text: phase(
    `Work side by side at the ${say.thing()}`,
    `beside-${n}`,
    [...AT_BELT, 'together: yes'],
    [[`**Fitter:** Grease the ${say.thing()}.`, 'uses: [grease]'], [`**Second:** Sweep below the ${say.thing()}.`]],
  ),
})

const near: Shape = (n, say) => ({
  states: [`belt-${n}: { values: [running, stopped], start: stopped, end: stopped, energy: motion, safe: stopped }`],
  zones: [`beside-belt-${n}: { what: beside belt ${n}, safe-when: { belt-${n}: stopped } }`],
  text: phase(
    `Train the belt at the ${say.thing()}`,
    `train-${n}`,
    ['by: [fitter, second]', 'where: out'],
    [
      ['Start the small drive.', `sets: { belt-${n}: running }`],
      [
        'Train the belt with the long handle.',
        'exposed:',
        `  zone: beside-belt-${n}`,
        '  who: fitter',
        '  because: The belt can only be trained while it runs.',
        '  controls: [long handle, second at the pull cord]',
        '  hold: { supervisor: I saw the second at the pull cord. }',
        `enters: { fitter: beside-belt-${n} }`,
      ],
      ['Stop the small drive.', `sets: { belt-${n}: stopped }`],
    ],
  ),
})

const looked: Shape = (n, say) => ({
  tables: [
    `rows-${n}:`,
    `  - { spot: A, limit: ${say.whole(10, 19)}.00 to ${say.whole(20, 25)}.05 mm }`,
    `  - { spot: B, limit: ${say.whole(26, 35)}.00 to ${say.whole(36, 45)}.05 mm }`,
  ],
  chart: [
    `- symptom: The ${say.thing()} runs hot.`,
    '  tests:',
    '    - { test: Look at the grease., finds: dry, remedy: Grease it. }',
  ],
  text: phase(
    `Measure the seats of the ${say.thing()}`,
    `seats-${n}`,
    [...AT_BELT, `repeat: { rows: rows-${n} }`],
    [['Measure seat (=spot).', `measure: { seat-${n}: "(=limit), with gauge" }`, 'else: { stop: The seat is worn. }']],
  ),
})

const heated: Shape = (n, say) => ({
  text: phase(
    `Warm the ${say.thing()}`,
    `warm-${n}`,
    [
      'by: fitter',
      'where: out',
      'hazards:',
      `  hot-${n}:`,
      '    hazard: The part is hot.',
      '    consequence: It burns hands.',
      '    avoid: Wear gloves for hot work.',
      '    severity: minor-injury',
      '    likelihood: could',
      '    energy: thermal',
    ],
    [
      [
        `Warm the ${say.thing()} in the oven. {#oven-${n}}`,
        `ramp: { oven-${n}: "${say.whole(80, 110)} °C, rate max 50 K/h, hold min 2 h" }`,
        'ppe: [heat gloves]',
      ],
      [
        'Read the heat.',
        `measure: { heat-${n}: "${say.whole(70, 80)} to 120 °C, with thermometer" }`,
        'else: { redo: this, at-most: 3, then: { stop: The oven does not heat. } }',
      ],
      ['Let it cool in still air.', `wait: 1 h to 24 h, after oven-${n}`],
    ],
  ),
})

const counted: Shape = (n, say) => ({
  text: phase(`Count the ${say.thing()}`, `count-${n}`, AT_BELT, [
    [
      `Count the worn bolts of the ${say.thing()}.`,
      `count: { worn-${n}: { limit: max ${say.whole(2, 5)}, of: 24 } }`,
      'else: { stop: Too many bolts are worn. }',
    ],
    ['Put in a new bolt for each worn one.', `when: worn-${n} > 0`],
  ]),
})

const varied: Shape = (n, say) => ({
  variants: ['size: [small, large]'],
  text: phase(`Fit the ${say.thing()} by size`, `size-of-${n}`, AT_BELT, [
    [
      'Tighten the small bolts.',
      'only: small',
      'torque:',
      `  small-bolts-${n}: ${say.whole(40, 44)} to ${say.whole(48, 56)} N·m, 6 × M10 8.8, dry, star, passes 50 100 %, with wrench`,
    ],
    [
      'Tighten the large bolts.',
      'only: large',
      'torque:',
      `  large-bolts-${n}: ${say.whole(190, 200)} to ${say.whole(215, 225)} N·m, 6 × M16 8.8, dry, star, passes 50 100 %, with wrench`,
    ],
  ]),
})

const adjusted: Shape = (n, say) => ({
  text: phase(`Adjust the ${say.thing()}`, `adjust-${n}`, AT_BELT, [
    [`Turn the stop of the ${say.thing()}. {#turn-${n}}`],
    [
      'Set the gap.',
      `set: { stop-gap-${n}: "${say.whole(1, 3)}.0 to ${say.whole(4, 6)}.0 mm, with gauge" }`,
      `else: { redo: [turn-${n}, this], at-most: 3, then: { stop: The stop is bent. } }`,
    ],
    ['Tap the frame.', `spoils: [stop-gap-${n}]`, 'clip: 1:20 to 2:05'],
    ['Read the gap again.', `redo: { steps: [turn-${n}], because: The frame has moved. }`],
  ]),
})

const signed: Shape = (n, say) => ({
  text: phase(
    `Have the ${say.thing()} seen`,
    `seen-${n}`,
    ['by: fitter', 'where: out'],
    [
      [
        `Measure the ${say.thing()} from outside.`,
        'hold-before: { rigger: I saw the way empty. }',
        `measure: { seen-gap-${n}: "0.${say.whole(10, 30)} to 0.${say.whole(40, 90)} mm, with gauge" }`,
        'else: { stop: The gap is wrong. }',
        'verify: { supervisor: I read it myself and it was in limit. }',
      ],
      ['Show the work.', 'witness: { supervisor: I saw both seals in their places. }'],
      ['Hand the sheet over.', 'review: { supervisor: I read every blank. None is empty. }'],
    ],
  ),
})

const told: Shape = (n, say) => ({
  text: phase(
    `Clean round the ${say.thing()}`,
    `clean-${n}`,
    [
      ...AT_BELT,
      'emergency: { slip: Sit down and call. }',
      'prohibit: [Nobody climbs on the frame.]',
      `consumables: { cloth-${n}: { name: lint-free cloth, quantity: 2 } }`,
    ],
    [
      [
        `Sweep the floor below the ${say.thing()}.`,
        `- The dust goes into the red bin, ${say.whole(2, 9)} bags at most.`,
      ],
      ['Wipe the frame.', '- **Fitter:** Wipe the front.', '- **Second:** Wipe the back.'],
      ['Look for loose bolts:', '1. at the head,', '2. at the tail.'],
    ],
    `| place | width | look for |\n|---|---|---|\n| head | ${say.whole(20, 90)} mm | cracks |\n| tail | ${say.whole(20, 90)} mm | rust |\n\n- Dust is **slippery**.\n- Wet dust is worse; see [the lock](#locked).`,
  ),
})

const propped: Shape = (n, say) => ({
  states: [
    `frame-${n}: { values: [down, jacked, propped], start: down, end: down, energy: gravity, safe: [down, propped], proved-by: supervisor }`,
  ],
  zones: [`under-${n}: { what: below frame ${n}, safe-when: { frame-${n}: [down, propped] } }`],
  never: [`- { when: { frame-${n}: jacked, power: live }, because: The frame moves when the belt starts. }`],
  text: phase(
    `Prop the ${say.thing()}`,
    `prop-${n}`,
    [
      'by: [fitter, second]',
      'where: out',
      `gear: { prop-${n}: { name: screw prop, capacity: 8 t }, jack-${n}: { name: hydraulic jack, capacity: 10 t } }`,
    ],
    [
      [
        'Raise the frame.',
        `clear: { zones: [under-${n}], by: second }`,
        `sets: { frame-${n}: jacked }`,
        `support: { frame-${n}: "${say.whole(2, 5)} t ± 10 %, on jack-${n}" }`,
      ],
      [
        'Let it down on the prop.',
        `sets: { frame-${n}: propped }`,
        `support: { frame-${n}: "3 t ± 10 %, on prop-${n}" }`,
        'hold: { supervisor: I saw the prop plumb and the jack free. }',
        `proves: { frame-${n}: propped }`,
      ],
      [`Clean below the ${say.thing()}.`, `where: under-${n}`],
      [
        'Come out and lower the frame.',
        'where: out',
        `clear: { zones: [under-${n}], by: second }`,
        `sets: { frame-${n}: [jacked, down] }`,
        'hold: { supervisor: I saw the frame down. }',
        `proves: { frame-${n}: down }`,
      ],
    ],
  ),
})

/** Each takes other keys of the language. */
export const shapes: readonly Shape[] = [
  isolate,
  measured,
  tightened,
  lifted,
  carried,
  burned,
  decided,
  sided,
  tried,
  undone,
  shared,
  near,
  looked,
  heated,
  counted,
  varied,
  adjusted,
  signed,
  told,
  propped,
]
