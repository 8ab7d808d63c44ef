import type { Answers } from './questions.ts'
import { inlineText } from './yaml-text.ts'

/** The block of the document: who works, what safety rests on, what is fetched, what to do when it goes wrong. */
export function documentBlock(answers: Answers): readonly string[] {
  return [
    'roles:',
    '  fitter: { who: plant fitter, qualification: [own lock] }',
    `  supervisor: { who: shift supervisor, different-from: [fitter${answers.lift ? ', rigger' : ''}] }`,
    ...(answers.lift ? ['  rigger: { who: rigger, qualification: [slinging and signalling, own lock] }'] : []),
    ...(answers.hotWork ? ['  fire-watch: { who: fire watch, different-from: [fitter] }'] : []),
    ...machineLines(answers),
    ...stateLines(answers),
    ...zoneLines(answers),
    'tools:',
    ...toolLines(answers),
    ...(answers.lift
      ? [
          'gear:',
          '  crane: { name: crane or hoist, capacity: ??, inspection: ?? }',
          '  sling: { name: sling, capacity: ??, inspection: ?? }',
        ]
      : []),
    ...(answers.kind === 'replace'
      ? ['parts:', `  new-part: { name: the new part, number: ??, quantity: ${times(answers)}, replace: always }`]
      : []),
    ...(answers.kind === 'service'
      ? ['consumables:', '  lubricant: { name: grease or oil, number: ??, quantity: ?? }']
      : []),
    `ppe: [hard hat, safety glasses, gloves, safety boots${answers.hotWork ? ', welding mask, welding gloves' : ''}]`,
    'emergency:',
    '  anybody-hurt: Stop, make it safe from outside, give first aid, and call the emergency number of the site.',
    ...(answers.hotWork
      ? ['  fire: Call out, get everybody out, and call the fire service. Fight it only with a way out behind you.']
      : []),
  ]
}

/** How often the work is done. */
const times = ({ positions }: Answers): number => Math.max(1, new Set(positions).size)

/** A machine's energies are states of these names; those that this skeleton knows nothing of are left to be judged. */
function machineLines({ machine, ...answers }: Answers): readonly string[] {
  if (machine === null) return []
  const covered = coveredEnergies({ machine, ...answers })
  const mapped = [...covered].map(([energy, state]) => `${energy}: ${state}`)
  const open = machine.energies.filter(({ id }) => !covered.has(id))
  return [
    'machine:',
    `  id: ${machine.id}`,
    ...(mapped.length > 0 ? [`  energies: { ${mapped.join(', ')} }`] : []),
    ...(open.length > 0 ? ['  dismissed:', ...open.map(({ id }) => `    ${id}: ??`)] : []),
  ]
}

/** Which state of the skeleton stands for which energy of the machine: the first one of its kind. */
function coveredEnergies({ machine, isolation, pressure }: Answers): ReadonlyMap<string, string> {
  const covered = new Map<string, string>()
  const take = (kinds: readonly string[], state: string) => {
    const energy = machine?.energies.find(({ id, kind }) => kinds.includes(kind) && !covered.has(id))
    if (energy !== undefined) covered.set(energy.id, state)
  }
  if (isolation) take(['electrical'], 'power')
  if (isolation) take(['motion', 'mechanical', 'rotation'], 'drive')
  if (pressure) take(['hydraulic', 'pneumatic', 'pressure', 'steam', 'gas'], 'pressure')
  return covered
}

function stateLines({ isolation, pressure, lift, guard, hotWork }: Answers): readonly string[] {
  const lines = [
    ...(guard && !isolation
      ? [
          '  drive: { values: [running, standing], start: standing, end: standing, energy: motion, safe: standing, proved-by: supervisor }',
        ]
      : []),
    ...(isolation
      ? [
          '  power: { values: [live, isolated], start: live, end: live, energy: electrical, safe: isolated, proved-by: supervisor, lapses: 12 h }',
          '  drive: { values: [running, standing], start: running, end: running, energy: motion, safe: standing, proved-by: supervisor, lapses: 12 h }',
        ]
      : []),
    ...(pressure
      ? [
          '  pressure: { values: [charged, vented], start: charged, end: charged, energy: hydraulic, safe: vented, proved-by: supervisor, lapses: 12 h }',
        ]
      : []),
    ...(hotWork ? ['  metal: { values: [cool, hot], start: cool, end: cool, energy: thermal, safe: cool }'] : []),
    ...(lift
      ? [
          '  load: { values: [in-place, slung, landed], start: in-place, end: in-place, energy: gravity, safe: [in-place, landed], held-by: [{ load: in-place }, { load: slung }, { load: landed }] }',
        ]
      : []),
  ]
  return lines.length === 0 ? [] : ['states:', ...lines]
}

function zoneLines({ isolation, pressure, lift, equipment }: Answers): readonly string[] {
  const safe = [...(isolation ? ['power: isolated', 'drive: standing'] : []), ...(pressure ? ['pressure: vented'] : [])]
  const lines = [
    ...(safe.length > 0
      ? [
          `  work-place: { what: ${inlineText(`within reach of the moving and live parts of the ${equipment}`)}, safe-when: { ${safe.join(', ')} } }`,
        ]
      : []),
    ...(lift
      ? ['  below-load: { what: below the load and in its swing, safe-when: { load: [in-place, landed] } }']
      : []),
  ]
  return lines.length === 0 ? [] : ['zones:', ...lines]
}

function toolLines({ kind, pressure }: Answers): readonly string[] {
  return [
    ...(kind === 'replace' || kind === 'service' ? ['  hand-tools: { name: hand tools, size: ?? }'] : []),
    ...(kind === 'replace'
      ? ['  torque-wrench: { name: torque wrench, measures: torque, range: ??, resolution: ??, accuracy: ?? }']
      : []),
    ...(kind === 'inspect' || kind === 'adjust'
      ? ['  gauge: { name: measuring instrument, measures: ??, range: ??, resolution: ??, accuracy: ?? }']
      : []),
    ...(pressure
      ? ['  pressure-gauge: { name: pressure gauge, measures: pressure, range: ??, resolution: ??, accuracy: ?? }']
      : []),
  ]
}
