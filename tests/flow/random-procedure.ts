import fc from 'fast-check'

/** A small procedure that a tape of numbers writes: zeros write the plainest one, so that a failure shrinks to something short. */
export interface RandomProcedure {
  readonly front: string
  readonly body: string
}

interface RandomStep {
  readonly id: string
  /** Key of the block → its value as typed. */
  keys: Record<string, string>
  bullets: readonly string[]
}

interface RandomPhase {
  readonly id: string
  readonly heading: '##' | '###'
  readonly keys: Record<string, string>
  steps: RandomStep[]
}

/** Numbers that a procedure is written from. */
export const tapes = fc.array(fc.noBias(fc.nat(9999)), { minLength: 90, maxLength: 90, size: 'max' })

type Draw = (below: number) => number

export function randomProcedure(tape: readonly number[]): RandomProcedure {
  let at = 0
  const draw: Draw = (below) => (tape[at++] ?? 0) % below
  const chance = (percent: number): boolean => draw(100) >= 100 - percent
  const pick = <Item>(items: readonly [Item, ...Item[]]): Item => items[draw(items.length)] ?? items[0]

  const has = { load: chance(60), heat: chance(50), door: chance(40), variants: chance(15), locks: chance(45) }
  const provedBy = pick([
    'supervisor',
    'supervisor',
    'reading',
    'test',
    '[supervisor, reading]',
    '[reading, test]',
    'supervisor',
    'reading',
  ])
  const lapses = chance(35) ? ', lapses: 2 h' : ''
  const start = chance(12) ? pick(['unknown', 'isolated']) : 'live'
  const zoneRests = [
    'power: isolated',
    ...(has.load && chance(60) ? ['load: [fitted, landed]'] : []),
    ...(has.heat && chance(60) ? ['heat: cold'] : []),
  ]
  const states = [
    `  power: { values: [live, isolated], start: ${start}, end: ${start === 'live' ? 'live' : '[live, isolated]'}, energy: electrical, safe: isolated, proved-by: ${provedBy}${lapses} }`,
    ...(has.load
      ? [
          '  load: { values: [fitted, slung, landed], start: fitted, end: fitted, energy: gravity, safe: [fitted, landed], held-by: [{ load: [fitted, landed] }, { hook: on }] }',
        ]
      : []),
    ...(has.heat
      ? [
          `  heat: { values: [cold, hot], start: cold, end: ${pick(['cold', '[cold, hot]'])}, energy: thermal, safe: cold${pick(['', ', proved-by: reading', ', proved-by: [test, supervisor], lapses: 2 h'])} }`,
        ]
      : []),
    ...(has.door
      ? [`  door: { values: [shut, open, off], start: shut, end: shut${pick([', safe: [shut, open, off]', ''])} }`]
      : []),
  ]
  const never = [
    ...(has.load && has.heat && chance(60)
      ? ['  - { when: { load: slung, heat: hot }, because: The sling burns. }']
      : []),
    ...(has.door && chance(60)
      ? ['  - { when: { door: open, power: live }, because: The fan draws the door in. }']
      : []),
  ]
  const second = has.heat && chance(40)
  const zones = [
    `  pit: { what: in the pit, safe-when: { ${zoneRests.join(', ')} } }`,
    ...(second ? ['  deck: { what: on the deck, safe-when: { heat: cold } }'] : []),
  ]

  let count = 0
  const step = (keys: Record<string, string> = {}, bullets: readonly string[] = []): RandomStep => ({
    id: `s${++count}`,
    keys,
    bullets,
  })
  const otherwise = (again: string): string =>
    pick([
      '{ stop: It is not so. }',
      '{ redo: this, at-most: 2, then: { stop: It stays so. } }',
      `{ redo: ${again}, at-most: 3, then: { stop: It stays so. } }`,
      '{ redo: this, at-most: 2, then: { continue: Noted. } }',
      '{ stop: It is not so. }',
      '{ continue: Noted. }',
    ])
  const proving = (state: string, value: string, by: string, again: string): Record<string, string> => ({
    proves: `{ ${state}: ${value} }`,
    ...(by.includes('reading') ? { measure: `{ volts-${count}: max 5 V }`, else: otherwise(again) } : {}),
    ...(by.includes('test') && !by.includes('reading')
      ? { check: `{ tried-${count}: It stays still. }`, else: otherwise(again) }
      : {}),
    ...(by.includes('supervisor') && (!by.includes('reading') || chance(50))
      ? { hold: '{ supervisor: I saw it. }' }
      : {}),
  })

  // A job that is done in a good order …
  const off = step({ sets: '{ power: isolated }' })
  if (has.locks) off.keys.locks = '[breaker]'
  const isolate: RandomPhase = {
    id: 'isolate',
    heading: '##',
    keys: { by: pick(['fitter', '[fitter, second]']), where: 'out' },
    steps: [off, step(proving('power', 'isolated', provedBy, 's1'))],
  }
  const work: RandomPhase = {
    id: 'work',
    heading: '##',
    keys: { by: pick(['fitter', '[fitter, second]']), where: pick(['pit', '{ fitter: pit }', 'pit']) },
    steps: [],
  }
  const back: RandomPhase = {
    id: 'back',
    heading: '##',
    keys: { by: work.keys.by ?? 'fitter', where: 'out' },
    steps: [],
  }
  const gap = chance(55)
  const hung: RandomStep[] = []
  if (has.load) {
    hung.push(
      step({ 'puts-on': '[hook]', sets: '{ load: slung }', clear: '[pit]' }),
      step({ sets: '{ load: landed }', 'takes-off': '[hook]' }),
    )
    back.steps.push(
      step({ 'puts-on': '[hook]', sets: '{ load: slung }' }),
      step({ sets: '{ load: fitted }', 'takes-off': '[hook]' }),
    )
  }
  if (has.heat) {
    const warm = step({
      sets: '{ heat: hot }',
      clear: second ? '[pit, deck]' : '[pit]',
      where: '{ fitter: out, second: out }',
    })
    const cool = step({
      sets: '{ heat: cold }',
      proves: '{ heat: cold }',
      measure: `{ warmth: max 40 °C }`,
      check: `{ pale: It is pale. }`,
      else: otherwise(warm.id),
    })
    if (chance(50)) isolate.steps.push(...hung, warm, cool)
    else isolate.steps.push(warm, cool, ...hung)
  } else isolate.steps.push(...hung)
  if (has.door) {
    work.steps.push(step({ sets: '{ door: open }', needs: '{ power: isolated }' }))
    back.steps.push(step({ sets: '{ door: shut }' }))
  }
  const menu = draw(8)
  if (menu % 4 === 1) work.steps.push(step({ removes: '[fan-guard]' }), step({ refits: '[fan-guard]' }))
  if (menu % 4 === 2)
    work.steps.push(step({ snug: '[bolts]' }), step({ torque: '{ bolts: "78 to 96 N·m, 4 × M14 8.8, dry, cross" }' }))
  if (menu >= 4)
    work.steps.push(step({ enters: pick(['{ fitter: pit }', second ? '{ second: deck }' : '{ second: pit }']) }))
  if (gap) {
    work.steps.push(step({ measure: '{ gap: 2 to 4 mm }', else: otherwise('this') }))
    work.steps.push(
      step({
        when: pick(['gap > 3 mm', 'not (gap in limit)', 'gap < 3 mm or gap > 5 mm', 'power = isolated']),
        ...(has.door ? { sets: pick(['{ door: off }', '{ door: open }']) } : {}),
      }),
    )
  }
  if (work.steps.length === 0 || chance(20)) work.steps.push(step())
  if (chance(15))
    work.keys.keep = `{ stays: { states: { power: ${pick(['isolated', 'isolated', 'live'])} }${chance(40) ? ', through: out' : ''} } }`
  else if (gap && chance(25)) work.keys.repeat = '{ until: gap in limit, at-most: 2, else: stop }'
  else if (!gap && chance(45)) work.keys.together = 'yes'
  work.steps.push({ id: 'out', keys: { where: 'out' }, bullets: [] })
  if (has.locks) back.steps.push(step({ unlocks: '[breaker]', by: isolate.keys.by ?? 'fitter' }))
  back.steps.push(step({ clear: second ? '[pit, deck]' : '[pit]', sets: '{ power: live }' }))
  const phases: RandomPhase[] = [isolate, work, back]
  const variantStep = has.variants ? pick([isolate, work, back]) : null
  if (variantStep) pick(variantStep.steps as [RandomStep, ...RandomStep[]]).keys.only = pick(['small', 'large'])

  // … with a decision, now and then …
  if (chance(30)) {
    const from = pick([isolate, work])
    const branches =
      gap && from === work && chance(50)
        ? '[{ when: gap > 3 mm, go: aside }, { otherwise: continue }]'
        : pick([
            '[{ answer: yes, go: aside }, { answer: no, go: continue }]',
            '[{ answer: yes, go: continue }, { answer: no, go: aside }]',
            '[{ answer: yes, go: continue }, { answer: no, go: stop, because: Not today. }]',
          ])
    if (from.keys.repeat === undefined && from.keys.together === undefined) {
      from.steps.push(step({ decide: `{ ask: Which way?, branches: ${branches} }` }))
      if (branches.includes('aside')) {
        const inside = from === work ? 'out' : pick(['out', 'pit'])
        const side: RandomPhase = {
          id: 'aside',
          heading: '###',
          keys: { by: 'second', where: inside },
          steps: [
            step(
              pick([
                {},
                { sets: '{ power: isolated }' },
                { sets: '{ power: [live, isolated] }' },
                { wait: '3 h' },
                proving('power', 'isolated', provedBy, 'this'),
                ...(has.door ? [{ sets: '{ door: off }' }] : []),
              ]),
            ),
          ],
        }
        phases.splice(phases.indexOf(from) + 1, 0, side)
      }
    }
  }

  // … and then somebody spoils it.
  const faults = draw(10) < 2 ? 0 : 1 + draw(4)
  for (let i = 0; i < faults; i++) {
    if (chance(50))
      spoilOnPurpose(phases, draw, {
        off,
        cool: phases.flatMap((one) => one.steps).find((one) => one.keys.measure?.includes('warmth')),
      })
    else spoil(phases, draw, has, second)
  }
  // What becomes of the others when one of several at work finds something out of limit is not settled by the rules.
  if (work.steps.some((one) => one.keys.else !== undefined || one.keys.check !== undefined)) delete work.keys.together
  return {
    front: has.variants ? 'variants: { size: [small, large] }\n' : '',
    body: written(states, zones, never, phases),
  }
}

const THINGS = [
  ['removes', '[fan-guard]'],
  ['snug', '[bolts]'],
  ['puts-on', '[clamp]'],
  ['locks', '[breaker]'],
  ['unlocks', '[breaker]'],
] as const

interface Marked {
  /** The step that isolates. */
  readonly off: RandomStep
  readonly cool: RandomStep | undefined
}

/** Kinds of mistakes that chance alone seldom makes. */
function spoilOnPurpose(phases: readonly RandomPhase[], draw: Draw, { off, cool }: Marked): void {
  const steps = phases.flatMap((phase) => phase.steps)
  const proving = steps.find((step) => step.keys.proves?.includes('power'))
  const working = phases.find((phase) => phase.id === 'work')?.steps ?? []
  const hung = steps.filter((step) => step.keys['puts-on'] === '[hook]')
  const taken = working.findIndex((step) => step.keys.measure?.includes('gap'))
  const asked = working[taken + 1]
  const some = <Item>(items: readonly Item[]): Item | undefined => items[draw(Math.max(1, items.length))]
  const mistakes: (() => void)[] = [
    () => {
      off.keys.by ??= '[fitter, supervisor]'
    },
    () => {
      if (proving) proving.keys.by ??= 'supervisor'
    },
    () => {
      const isCover = draw(2) === 0
      if (proving) proving.keys[isCover ? 'removes' : 'puts-on'] ??= isCover ? '[cap]' : '[plug]'
      const later = some(working)
      if (later && proving) later.keys[isCover ? 'refits' : 'takes-off'] ??= isCover ? '[cap]' : '[plug]'
    },
    () => {
      if (proving && steps.some((step) => step.keys.sets?.includes('door'))) proving.keys.needs ??= '{ door: shut }'
    },
    () => {
      const step = some(working)
      if (step) step.keys.wait ??= '3 h'
    },
    () => {
      const step = some(hung)
      if (step) delete step.keys['puts-on']
    },
    () => {
      const index = working.findIndex((step) => step.keys.decide === undefined)
      const step = working[index]
      if (step) step.keys.when ??= 'late > 2 mm'
    },
    () => {
      if (taken >= 0 && asked) asked.keys.spoils ??= '[gap]'
      const later = working[taken + 2]
      if (taken >= 0 && later && later.keys.decide === undefined) later.keys.when ??= 'gap > 3 mm'
    },
    () => {
      const step = some(hung)
      if (step && cool) step.keys.sets = '{ heat: hot, load: slung }'
    },
    () => {
      const step = some(working)
      if (step) step.keys.sets ??= some(['{ power: live }', '{ power: [live, isolated] }']) ?? '{ power: live }'
    },
    () => {
      const back = steps.find((step) => step.keys.sets?.includes('power: live') && step.keys.clear !== undefined)
      if (back) delete back.keys.clear
      const last = working.at(-1)
      if (last?.keys.where === 'out' && back) last.keys.where = '{ fitter: out }'
    },
    () => {
      const step = steps.find((one) => one.keys.refits !== undefined || one.keys.torque !== undefined)
      if (step) for (const key of ['refits', 'torque']) delete step.keys[key]
    },
  ]
  mistakes[draw(mistakes.length)]?.()
}

function spoil(
  phases: RandomPhase[],
  draw: Draw,
  has: { readonly load: boolean; readonly heat: boolean; readonly door: boolean; readonly locks: boolean },
  second: boolean,
): void {
  const phase = phases[draw(phases.length)] ?? phases[0]
  if (phase === undefined) return
  const index = draw(phase.steps.length)
  const step = phase.steps[index]
  if (step === undefined) return
  const isLast = step.keys.decide !== undefined
  const zone = second && draw(2) === 1 ? 'deck' : 'pit'
  const state =
    ['power', ...(has.load ? ['load'] : []), ...(has.heat ? ['heat'] : []), ...(has.door ? ['door'] : [])][draw(4)] ??
    'power'
  const values: Record<string, readonly string[]> = {
    power: ['live', 'isolated', '[live, isolated]', '[isolated, live]'],
    load: ['slung', 'landed', 'fitted'],
    heat: ['hot', 'cold', '[hot, cold]'],
    door: ['open', 'off', 'shut'],
  }
  const value = values[state]?.[draw(4)] ?? values[state]?.[0] ?? ''
  const single = value.startsWith('[') ? (values[state]?.[0] ?? '') : value
  const add = (key: string, text: string): void => {
    if (step.keys[key] === undefined) step.keys[key] = text
  }
  switch (draw(20)) {
    case 0:
    case 1:
      if (phase.steps.length > 1 && !isLast) phase.steps.splice(index, 1)
      return
    case 2:
    case 3: {
      const next = phase.steps[index + 1]
      if (next && next.keys.decide === undefined && !isLast) phase.steps.splice(index, 2, next, step)
      return
    }
    case 4:
    case 5: {
      const keys = Object.keys(step.keys).filter((key) => key !== 'decide')
      const key = keys[draw(Math.max(1, keys.length))]
      if (key !== undefined) delete step.keys[key]
      return
    }
    case 6:
    case 7:
      add('sets', `{ ${state}: ${value} }`)
      return
    case 8:
      add('wait', ['30 min', '3 h', 'min 2 h', '1 h to 4 h'][draw(4)] ?? '3 h')
      return
    case 9:
      add('needs', `{ ${state}: ${single} }`)
      return
    case 10:
      add('by', ['supervisor', 'second', '[fitter, supervisor]'][draw(3)] ?? 'second')
      return
    case 11:
      add('enters', `{ ${['fitter', 'second'][draw(2)]}: ${zone} }`)
      return
    case 12:
      add('where', [zone, 'out', `{ second: ${zone} }`][draw(3)] ?? 'out')
      return
    case 13:
      if (step.bullets.length === 0 && step.keys.sets === undefined && step.keys.by === undefined) {
        step.bullets = ['   - **Fitter:** Hold it.', '   - **Second:** Turn it.']
        step.keys.sets = `{ power: isolated, ${state === 'power' ? (has.door ? 'door: open' : has.load ? 'load: landed' : 'power-2: x') : `${state}: ${single}`} }`
        if (step.keys.sets.includes('power-2')) step.keys.sets = '{ power: [live, isolated] }'
      }
      return
    case 14:
      add('proves', `{ ${state}: ${single} }`)
      if (draw(2) === 1) add('hold', '{ supervisor: I saw it. }')
      return
    case 15: {
      const [key, thing] = THINGS[draw(THINGS.length)] ?? THINGS[0]
      add(key, thing)
      return
    }
    case 16:
      add('check', `{ look-${step.id}: It looks good. }`)
      add(
        'else',
        [
          `{ stop: It does not., leave: { ${state}: ${single} } }`,
          '{ stop: It does not. }',
          '{ redo: this, at-most: 3, then: { stop: No. } }',
        ][draw(3)] ?? 'stop',
      )
      return
    case 17:
      add('measure', '{ late: 1 to 3 mm }')
      add('else', '{ stop: It is out. }')
      return
    case 18:
      if (draw(2) === 1) {
        add('spoils', '[gap]')
        return
      }
      add(
        'when',
        ['late > 2 mm', 'gap > 3 mm', 'gap in limit', 'late in limit and power = isolated'][draw(4)] ?? 'gap in limit',
      )
      return
    default:
      phase.keys.where = [zone, 'out', `{ fitter: ${zone}, second: out }`][draw(3)] ?? 'out'
  }
}

function written(
  states: readonly string[],
  zones: readonly string[],
  never: readonly string[],
  phases: readonly RandomPhase[],
): string {
  const lines = [
    '```yaml',
    'roles:',
    '  fitter: { who: plant fitter }',
    '  second: { who: second fitter }',
    '  supervisor: { who: shift supervisor }',
    'states:',
    ...states,
    'zones:',
    ...zones,
    ...(never.length > 0 ? ['never:', ...never] : []),
    '```',
    '',
  ]
  for (const phase of phases) {
    // The step that a keep holds through may have been taken out to stay small.
    if (!phase.steps.some((step) => step.id === 'out') && phase.keys.keep)
      phase.keys.keep = phase.keys.keep.replace(', through: out', '')
    lines.push(
      `${phase.heading} Do ${phase.id} {#${phase.id}}`,
      '',
      '```yaml',
      ...Object.entries(phase.keys).map(([key, value]) => `${key}: ${value}`),
      '```',
      '',
    )
    for (const [index, step] of phase.steps.entries()) {
      lines.push(`${index + 1}. Do it. {#${step.id}}`)
      const keys = Object.entries(step.keys)
      if (keys.length > 0) lines.push('   ```yaml', ...keys.map(([key, value]) => `   ${key}: ${value}`), '   ```')
      lines.push(...step.bullets)
    }
    lines.push('')
  }
  return lines.join('\n')
}
