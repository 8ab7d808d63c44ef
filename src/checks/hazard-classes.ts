import type { Hazard, Procedure } from '../model/procedure.ts'
import { everyStep } from './every-step.ts'

/** A class of hazard, by the name that the library's own example of it has. */
interface HazardClass {
  readonly id: string
  /** As people call it. */
  readonly name: string
  /** Kinds of energy of a hazard that is of this class, or near enough to it. */
  readonly energies: readonly string[]
  /** Words of a hazard of this class. */
  readonly says: RegExp
  /** Wear that shows that somebody thought of it; null where wear alone is no answer. */
  readonly wear: RegExp | null
}

/** Classes after the groups of ISO 12100:2010, Annex B (groups from memory), as far as a step can betray them. */
const classes: readonly HazardClass[] = [
  of('suspended-load', 'a load that hangs', ['gravity'], 'load|fall|falls|falling|drops?|swings?|crush'),
  of(
    'raised-part',
    'a raised part that comes down',
    ['gravity'],
    'falls?|falling|drops?|slides? off|comes? down|crush',
  ),
  of(
    'stored-spring',
    'a spring or tension that lets go',
    ['spring', 'tension', 'mechanical', 'motion', 'gravity'],
    'spring|tension|take-up|lets? go|flies',
  ),
  of(
    'rotating-shaft',
    'parts that turn',
    ['motion', 'mechanical', 'rotation', 'electrical'],
    'turns?|turning|rotat|nip|draws?|catch|starts?|runs?',
  ),
  of(
    'flying-parts',
    'splinters and parts that fly',
    ['motion', 'mechanical', 'pneumatic'],
    'splinter|fly|flies|thrown|chips?|eyes?|sparks?',
    'glasses|goggles|face|eye|visor',
  ),
  of('oil-pressure', 'oil under pressure', ['hydraulic', 'pressure'], 'oil|pressure|jet|inject|hydraul|accumulator'),
  of(
    'air-pressure',
    'air or gas under pressure',
    ['pneumatic', 'pressure', 'gas'],
    'air|pressure|burst|explod|tyre|rim',
  ),
  of('live-parts', 'live parts and stored charge', ['electrical'], 'live|shock|electr|voltage|current|charge'),
  of('hot-surface', 'hot parts', ['thermal', 'fire'], 'hot|burn|heat|scald', 'heat|welding|leather'),
  of(
    'deep-cold',
    'parts and liquids that are very cold',
    ['thermal', 'cold'],
    'cold|freez|frozen|frost|nitrogen|ice',
    'insulated|cold|cryo',
  ),
  of('sparks-and-flame', 'sparks and flame', ['thermal', 'fire', 'chemical'], 'fire|spark|flame|burn|explod|ignit'),
  of(
    'arc-light',
    'light of the arc',
    ['radiation', 'optical', 'thermal'],
    'arc|light|glare|eyes?|flash',
    'welding|mask|helmet|shade',
  ),
  of(
    'harmful-substance',
    'fumes and substances that harm',
    ['chemical', 'toxic'],
    'fume|poison|toxic|acid|caustic|solvent|vapou?r|skin|breath|lung',
    'respirator|mask|oil-proof|chemical|rubber|nitrile|gloves',
  ),
  of('noise', 'noise', ['noise', 'sound'], 'noise|hearing|ears?|loud|deaf', 'hearing|ear'),
  of('rock-dust', 'dust', ['dust', 'chemical'], 'dust|lung|breath', 'respirator|mask|breathing'),
  of('battery', 'battery gas and acid', ['chemical', 'electrical'], 'batter|acid|gas|short|explod', 'acid'),
  of('fall-from-height', 'falling from a height', ['gravity', 'height'], 'fall|height|edge|ladder', 'harness'),
  of(
    'moving-vehicle',
    'vehicles that move',
    ['motion', 'gravity'],
    'rolls?|runs? over|drives?|moves?|vehicle|truck|loader',
  ),
  of(
    'heavy-handling',
    'heavy or awkward loads in the hands',
    ['gravity', 'ergonomic'],
    'heavy|back|strain|awkward|traps?|lift',
  ),
  of(
    'flammable-vapour',
    'vapour of fuel',
    ['chemical', 'thermal', 'fire'],
    'fuel|diesel|petrol|vapou?r|fire|flam|ignit',
  ),
  of('strong-magnet', 'a strong magnet', ['magnetic', 'radiation'], 'magnet|implant|pacemaker|pinch'),
]

export function classNamed(id: string): HazardClass {
  const found = classes.find((one) => one.id === id)
  if (found === undefined) throw new Error(`no class of hazard is called ${id}`)
  return found
}

/** Whether somebody thought of this class: a hazard of the document speaks of it, or people wear something against it. */
export function isThoughtOf({ id, energies, says, wear }: HazardClass, procedure: Procedure): boolean {
  const isNamed = procedure.hazards.some(
    (hazard) => hazard.id === id || energies.includes(hazard.energyClass ?? '') || says.test(wordsOfHazard(hazard)),
  )
  return isNamed || (wear !== null && wornIn(procedure).some((one) => wear.test(one)))
}

function wordsOfHazard({ id, hazard, consequence }: Hazard): string {
  return `${id.replaceAll('-', ' ')} ${hazard} ${consequence}`
}

function wornIn(procedure: Procedure): readonly string[] {
  return [
    ...procedure.resources.ppe.map(({ id, name }) => `${id} ${name}`),
    ...procedure.phases.flatMap(({ ppe }) => ppe),
    ...everyStep(procedure).flatMap(({ step }) => step.ppe),
  ]
}

function of(
  id: string,
  name: string,
  energies: readonly string[],
  says: string,
  wear: string | null = null,
): HazardClass {
  return {
    id,
    name,
    energies,
    says: new RegExp(`\\b(?:${says})`, 'i'),
    wear: wear === null ? null : new RegExp(`(?:${wear})`, 'i'),
  }
}
