/** How large a made-up procedure is. */
export interface FlowShape {
  readonly steps: number
  readonly states: number
  readonly decisions: number
  readonly repeats: number
}

const STEPS_OF_PHASE = 15

/**
 * A procedure of phases of fifteen steps: each makes some states safe, has them proved, works where it is dangerous, reads
 * and reads again, and gives back what it took. Some phases end in a decision with two branches, some are repeated until
 * a reading is in limit. Three people. Nothing is wrong with it.
 */
export function procedureOfShape(shape: FlowShape): string {
  const phases = Math.max(1, Math.round(shape.steps / STEPS_OF_PHASE))
  const each = Math.max(1, Math.floor(shape.states / Math.min(phases, shape.states)))
  const parts = [documentBlock(shape, each)]
  for (let phase = 0; phase < phases; phase++) {
    const decides = phase < shape.decisions
    parts.push(phaseText(phase, each, shape, decides, !decides && phase - shape.decisions < shape.repeats))
  }
  return parts.join('\n')
}

function statesOfPhase(phase: number, each: number, shape: FlowShape): readonly number[] {
  return Array.from({ length: each }, (_, index) => (phase * each + index) % shape.states)
}

function documentBlock(shape: FlowShape, each: number): string {
  const states = Array.from(
    { length: shape.states },
    (_, state) =>
      `  drive-${state}: { values: [live, isolated], start: live, end: live, energy: electrical, safe: [isolated, live], proved-by: supervisor }`,
  )
  const zones = Array.from({ length: Math.ceil(shape.states / each) }, (_, zone) => {
    const claims = statesOfPhase(zone, each, shape).map((state) => `drive-${state}: isolated`)
    return `  bay-${zone}: { what: inside bay ${zone}, safe-when: { ${claims.join(', ')} } }`
  })
  return ['```yaml', 'roles: [fitter, second, supervisor]', 'states:', ...states, 'zones:', ...zones, '```', ''].join(
    '\n',
  )
}

function phaseText(phase: number, each: number, shape: FlowShape, decides: boolean, repeats: boolean): string {
  const states = statesOfPhase(phase, each, shape)
  const bay = `bay-${phase % Math.ceil(shape.states / each)}`
  const all = (value: string): string => states.map((state) => `drive-${state}: ${value}`).join(', ')
  const repeat = repeats ? [`repeat: { until: gap-${phase} in limit, at-most: 3, else: continue }`] : []
  const steps = [
    step('Turn the drives off.', `sets: { ${all('isolated')} }`),
    step('Show them to the supervisor.', 'hold: { supervisor: I saw them off. }', `proves: { ${all('isolated')} }`),
    step('Go in and open the covers.', `where: ${bay}`),
    step(
      'Measure the gap.',
      `measure: { gap-${phase}: 1 to 3 mm }`,
      ...(repeats ? [] : ['else: { redo: this, at-most: 3, then: continue }']),
    ),
    step('Clean the sieve where the gap is wide.', `when: gap-${phase} > 2 mm`),
    ...Array.from({ length: STEPS_OF_PHASE - 9 }, (_, index) => step(`**Second:** Hand in part ${index + 1}.`)),
    step('Set the plates.', `measure: { play-${phase}: max 3 mm }`, 'else: { redo: this, at-most: 2, then: continue }'),
    step('Come out.', 'where: out'),
    step('Turn the drives on.', `clear: [${bay}]`, `sets: { ${all('live')} }`),
    decides ? decision(phase) : step('Write the card.'),
  ]
  return [
    `## Bay ${phase} {#phase-${phase}}`,
    '',
    '```yaml',
    'by: [fitter, second]',
    'where: out',
    ...repeat,
    '```',
    '',
    ...steps.map((text, index) => `${index + 1}.`.padEnd(4) + text),
    '',
    ...(decides ? branches(phase) : []),
  ].join('\n')
}

function decision(phase: number): string {
  const ways =
    phase % 2 === 0
      ? [`{ answer: worn, go: worn-${phase} }`, `{ answer: good, go: good-${phase} }`]
      : [`{ when: play-${phase} > 2 mm, go: worn-${phase} }`, `{ otherwise: good-${phase} }`]
  return step('Decide.', `decide: { ask: How is it?, branches: [${ways.join(', ')}] }`)
}

function branches(phase: number): readonly string[] {
  return ['worn', 'good'].flatMap((way) => [
    `### ${way} ${phase} {#${way}-${phase}}`,
    '',
    '1. Do what it needs.',
    '2. Write it on the card.',
    '',
  ])
}

function step(text: string, ...lines: readonly string[]): string {
  if (lines.length === 0) return text
  return [text, '    ```yaml', ...lines.map((line) => `    ${line}`), '    ```'].join('\n')
}
