import type { Procedure } from '../model/procedure.ts'

const ALWAYS = [
  'Local law, site rules and the maker’s instructions come first. Where they differ from this document, stop and ask.',
  'Only people who are trained and authorised for this work do it. A signature is given by the person who looked, after looking.',
]

const LIFTING =
  'Lifting plans and the choice of lifting gear are for a competent, authorised person. The figures here do not replace a lifting plan.'
const ELECTRICAL =
  'Electrical isolation is for authorised people. Each person fits their own lock and proves the circuit dead.'
const HOT_WORK =
  'Hot work is for authorised people under a permit. The permit in force comes before what is written here.'
const PRESSURE =
  'Stored pressure and stored energy are released only by people trained on this system. A gauge at zero is no proof of an empty accumulator.'
const COMPUTED =
  'Second units, torque passes and signal words were worked out by this program from what the author wrote: limits are rounded inward, passes are shares of the middle of the band or of the aim.'

const PRESSURE_ENERGIES = ['hydraulic', 'pneumatic', 'pressure', 'steam']

/** What every output says where people can be hurt, as far as this procedure needs it. */
export function cautionsFor(procedure: Pick<Procedure, 'states' | 'phases'>): readonly string[] {
  const keys = new Set<string>()
  const visit = (steps: Procedure['phases'][number]['steps']): void => {
    for (const step of steps) {
      for (const entry of step.entries) keys.add(entry.key)
      visit(step.steps)
    }
  }
  for (const phase of procedure.phases) {
    for (const entry of phase.entries) keys.add(entry.key)
    visit(phase.steps)
  }
  const energies = new Set(procedure.states.map((state) => state.energy))
  return [
    ...ALWAYS,
    ...(keys.has('lift') || keys.has('support') ? [LIFTING] : []),
    ...(energies.has('electrical') || keys.has('locks') ? [ELECTRICAL] : []),
    ...(PRESSURE_ENERGIES.some((energy) => energies.has(energy)) ? [PRESSURE] : []),
    ...(keys.has('hot-work') ? [HOT_WORK] : []),
    COMPUTED,
  ]
}
