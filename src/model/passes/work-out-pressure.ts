import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, rational } from '../../quantities/rational.ts'
import { releaseCaution } from '../../trade/cautions.ts'
import type { Step } from '../procedure.ts'
import { pressureUnit, type StoredStudy, storedOf } from '../stored-energy/stored-study.ts'
import type { WorkedFigure, Working } from '../working.ts'
import type { AroundFigures } from './around-figures.ts'
import { shown, workedFigure } from './worked-figures.ts'

/** What a step lets out: forces, energy and volume, where it goes, what shows that it is gone. */
export function workOutPressure(step: Step, { readings }: AroundFigures): readonly Working[] {
  return storedOf(step, readings).flatMap((study) => {
    const parts = partsOf(study)
    if (parts.length === 0) return []
    return [
      {
        key: 'pressure' as const,
        of: study.name,
        says: [...parts.map(({ says }) => says), ...releaseOf(study)].join(' '),
        figures: parts.flatMap(({ figures }) => figures),
        formula: parts.map(({ formula }) => formula).join('; '),
        lines: parts.flatMap(({ lines }) => lines),
        source: [...new Set(parts.map(({ source }) => source))].join('; '),
        caution: releaseCaution,
        at: study.at,
      },
    ]
  })
}

/** One thing that is stored. */
interface Part {
  readonly says: string
  readonly figures: readonly WorkedFigure[]
  readonly formula: string
  readonly lines: readonly string[]
  readonly source: string
}

type PartOf = (study: StoredStudy) => Part | null

function partsOf(study: StoredStudy): readonly Part[] {
  const worked = ([ofCylinder, ofAccumulator, ofGas, ofLiquid, ofSpring, ofRaised] satisfies PartOf[]).flatMap(
    (part) => part(study) ?? [],
  )
  if (worked.length > 0 || study.pressure === null) return worked
  // A pressure alone: nothing to work out, and what shows that it is gone is told all the same.
  const typed = study.typed('pressure') ?? ''
  return [
    { says: `Up to ${typed}.`, figures: [], formula: 'p', lines: [`p = ${typed}`], source: 'The author’s figure' },
  ]
}

/** What the author says of letting it out. */
function releaseOf({ typed, gauge }: StoredStudy): readonly string[] {
  const limit = gauge?.reading?.limit?.text ?? gauge?.reading?.limit?.typed
  const [goes, seen, stand] = [typed('goes'), typed('seen'), typed('stand')]
  return [
    ...(goes === null ? [] : [`It goes ${sentence(goes)}`]),
    ...(gauge === null ? [] : [`It is gone when ${gauge.name.replaceAll('-', ' ')} reads ${limit ?? 'nothing'}.`]),
    ...(seen === null ? [] : [`It is gone when this is seen: ${sentence(seen)}`]),
    ...(stand === null ? [] : [`Stand ${sentence(stand)}`]),
  ]
}

/** `At the lever.` and `at the lever` both as `at the lever.` */
function sentence(typed: string): string {
  const text = typed.trim()
  const isName = /^\p{Lu}\p{Lu}/u.test(text)
  const begins = isName ? text : text.charAt(0).toLowerCase() + text.slice(1)
  return /[.!?]$/.test(begins) ? begins : `${begins}.`
}

function ofCylinder(study: StoredStudy): Part | null {
  const { cylinder, typed, isInch } = study
  if (cylinder === null) return null
  const { push, ring, isBlocked } = cylinder
  const [pressure, bore, rod] = [typed('pressure'), typed('bore'), typed('rod')]
  const force = (value: Rational) => shown(value, forceUnit(value, isInch), 3, 'up')
  const unit = pressureUnit(study)
  const figure = (name: string, value: Rational): WorkedFigure =>
    workedFigure({ name, kind: 'force', unit: forceUnit(value, isInch), value, rounding: 'up', isRounded: true })
  const blocked = ring && shown(ring.blocked, unit, 3, 'up')
  return {
    says: [
      `At ${pressure} it pushes with ${force(push)}${ring ? ` and pulls with ${force(ring.pull)}` : ''}.`,
      ...(isBlocked && ring ? [`The rod side is blocked: it comes to ${blocked}, more than the supply.`] : []),
    ].join(' '),
    figures: [
      figure('push', push),
      ...(ring ? [figure('pull', ring.pull)] : []),
      ...(isBlocked && ring
        ? [workedFigure({ name: 'blocked-rod-side', kind: 'pressure', unit, value: ring.blocked, rounding: 'up' })]
        : []),
    ],
    formula: `push = p · π/4 · D²${ring ? '; pull = p · π/4 · (D² − d²)' : ''}${isBlocked ? '; blocked rod side: p · D²/(D² − d²)' : ''}`,
    lines: [
      `Push: ${pressure} × π/4 × (${bore})² = ${force(push)}`,
      ...(ring ? [`Pull: ${pressure} × π/4 × ((${bore})² − (${rod})²) = ${force(ring.pull)}`] : []),
      ...(isBlocked && ring ? [`Rod side: ${pressure} × (${bore})²/((${bore})² − (${rod})²) = ${blocked}`] : []),
    ],
    source: 'Pascal’s law on bore and ring area; friction and back pressure left out',
  }
}

function ofAccumulator({ accumulator, typed, isInch }: StoredStudy): Part | null {
  if (accumulator === null) return null
  const { volume, energy } = accumulator
  const [pressure, precharge, gas] = [typed('pressure'), typed('precharge'), typed('gas')]
  const oil = shown(volume, volumeUnit(volume, isInch), 3, 'up')
  return {
    says: `At ${pressure} it gives back ${oil} of oil, with up to ${energyText(energy, isInch)} behind it.`,
    figures: [volumeFigure('oil', volume, isInch), energyFigure('energy', energy, isInch)],
    formula:
      'oil = V₁ · (1 − p₁/p₂), filled slowly; energy at most p₂ · V₂ · ln(p₂/p₁); absolute pressures, gauge + 14.7 psi',
    lines: [
      `Oil: ${gas} × (1 − p₁/p₂), with p₁ of ${precharge} and p₂ of ${pressure}, absolute = ${oil}`,
      `Energy: at most ${energyText(energy, isInch)}`,
    ],
    source: 'Boyle’s law (textbook)',
  }
}

function ofGas({ gas, typed, isInch }: StoredStudy): Part | null {
  if (gas === null) return null
  const distance = shown(gas.distance, isInch ? 'ft' : 'm', 3, 'up')
  const energy = energyText(gas.energy, isInch)
  return {
    says: `${typed('gas')} of gas at ${typed('pressure')} hold ${energy}. A pressure test with so much keeps people ${distance} away.`,
    figures: [
      energyFigure('energy', gas.energy, isInch),
      workedFigure({
        name: 'test-distance',
        kind: 'length',
        unit: isInch ? 'ft' : 'm',
        value: gas.distance,
        rounding: 'up',
        isRounded: true,
      }),
    ],
    formula:
      'E = 2.5 · p · V · (1 − (pa/p)^0.286), absolute; distance 30 m up to 135.5 MJ, 60 m up to 271 MJ, above 20 · (2 · TNT)^⅓',
    lines: [`E of ${typed('gas')} at ${typed('pressure')} = ${energy}`, `Distance in a pressure test: ${distance}`],
    source:
      'ASME PCC-2, article 501, appendices 501-II and 501-III (read in a page that reproduces it): air and nitrogen',
  }
}

function ofLiquid({ liquid, typed, isInch }: StoredStudy): Part | null {
  if (liquid === null) return null
  const out = shown(liquid.volume, volumeUnit(liquid.volume, isInch), 3, 'up')
  return {
    says: `${typed('liquid')} of oil at ${typed('pressure')} give by ${out} when let off, with ${energyText(liquid.energy, isInch)} behind it; hoses and air in it add to that.`,
    figures: [volumeFigure('let-off', liquid.volume, isInch), energyFigure('energy', liquid.energy, isInch)],
    formula: 'ΔV = V · p/B; E = p² · V/(2 · B)',
    lines: [`ΔV of ${typed('liquid')} at ${typed('pressure')} = ${out}`, `E = ${energyText(liquid.energy, isInch)}`],
    source: 'Definition of the bulk modulus; petroleum oil 0.5 % for 1000 psi: common practice',
  }
}

function ofSpring({ spring, typed, isInch }: StoredStudy): Part | null {
  if (spring === null) return null
  const force = shown(spring.force, forceUnit(spring.force, isInch), 3, 'up')
  const energy = energyText(spring.energy, isInch)
  return {
    says: `The spring presses with ${force} and holds ${energy}.`,
    figures: [
      workedFigure({
        name: 'force',
        kind: 'force',
        unit: forceUnit(spring.force, isInch),
        value: spring.force,
        rounding: 'up',
      }),
      energyFigure('energy', spring.energy, isInch),
    ],
    formula: 'F = k · x; E = k · x²/2',
    lines: [
      `F = ${typed('rate')} × ${typed('travel')} = ${force}`,
      `E = ${typed('rate')} × (${typed('travel')})²/2 = ${energy}`,
    ],
    source: 'Hooke’s law; constant rate, travel from the free length',
  }
}

function ofRaised({ raised, typed, isInch }: StoredStudy): Part | null {
  if (raised === null) return null
  const energy = energyText(raised.energy, isInch)
  return {
    says: `${typed('mass')} can fall ${typed('height')}: ${energy}.`,
    figures: [energyFigure('energy', raised.energy, isInch)],
    formula: 'E = m · g · h',
    lines: [`E = ${typed('mass')} × 9.80665 m/s² × ${typed('height')} = ${energy}`],
    source: 'Mechanics; standard gravity',
  }
}

const THOUSAND = rational(1000)

function forceUnit(value: Rational, isInch: boolean): string {
  if (isInch) return 'lbf'
  return compare(value, THOUSAND) < 0 ? 'N' : 'kN'
}

function energyUnit(value: Rational, isInch: boolean): string {
  if (isInch) return 'ft·lbf'
  return compare(value, THOUSAND) < 0 ? 'J' : 'kJ'
}

/** Below a tenth of a litre in millilitres. */
function volumeUnit(value: Rational, isInch: boolean): string {
  if (isInch) return 'US gal'
  return compare(value, rational(1, 10_000)) < 0 ? 'mL' : 'L'
}

function energyText(value: Rational, isInch: boolean): string {
  return shown(value, energyUnit(value, isInch), 3, 'up')
}

function energyFigure(name: string, value: Rational, isInch: boolean): WorkedFigure {
  return workedFigure({ name, kind: 'energy', unit: energyUnit(value, isInch), value, rounding: 'up', isRounded: true })
}

function volumeFigure(name: string, value: Rational, isInch: boolean): WorkedFigure {
  return workedFigure({ name, kind: 'volume', unit: volumeUnit(value, isInch), value, rounding: 'up', isRounded: true })
}
