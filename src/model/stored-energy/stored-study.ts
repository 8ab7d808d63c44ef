import { parseQuantity } from '../../quantities/parse-quantity.ts'
import type { QuantityKind, Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, multiply, subtract } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import type { PlainValue } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import {
  boreArea,
  type CylinderForces,
  cylinderForces,
  pressureForce,
  usualAtmosphere,
} from '../../trade/hydraulics/pressure.ts'
import { gasEnergy, isothermalEnergy, leastDistance, tntEnergy } from '../../trade/hydraulics/stored-energy.ts'
import { compressedVolume, liquidEnergy, oilModulus } from '../../trade/hydraulics/stored-liquid.ts'
import { raisedEnergy, springEnergy } from '../../trade/hydraulics/stored-mechanical.ts'
import { amountOf, type LoadBlock, textOf } from '../loads/load-data.ts'
import type { Step } from '../procedure.ts'
import type { Reading } from '../readings.ts'

/** What one entry of `pressure` lets out, as far as its block lets it be followed. Values in the base unit of their kind. */
export interface StoredStudy {
  /** The name of its state, or any. */
  readonly name: string
  readonly at: Place
  /** Gauge pressure; null for a spring or a raised mass. */
  readonly pressure: Rational | null
  readonly cylinder: StoredCylinder | null
  readonly accumulator: StoredOil | null
  readonly gas: StoredGas | null
  readonly liquid: StoredOil | null
  readonly spring: StoredSpring | null
  readonly raised: { readonly energy: Rational } | null
  /** Figures that do not go together, the first of them. */
  readonly problem: StoredProblem | null
  /** Whether inch-pound units were typed: answers are in them. */
  readonly isInch: boolean
  /** As typed. */
  readonly typed: (field: string) => string | null
  readonly gauge: { readonly name: string; readonly reading: Reading | null } | null
}

interface StoredCylinder {
  readonly push: Rational
  /** With a rod: the pull, and the pressure of a rod side that nothing can leave. */
  readonly ring: Pick<CylinderForces, 'pull' | 'blocked'> | null
  readonly isBlocked: boolean
}

interface StoredOil {
  /** What comes out. */
  readonly volume: Rational
  readonly energy: Rational
}

interface StoredGas {
  readonly energy: Rational
  /** Metres that a pressure test would keep people away. */
  readonly distance: Rational
}

interface StoredSpring {
  readonly force: Rational
  readonly energy: Rational
}

interface StoredProblem {
  readonly message: string
  readonly advice: string
}

/** Everything under `pressure` of a step, in the order written. */
export function storedOf(step: Step, readings: readonly Reading[]): readonly StoredStudy[] {
  return step.entries
    .filter(({ key }) => key === 'pressure')
    .flatMap((entry) =>
      Object.entries(isFields(entry.data) ? entry.data : {}).flatMap(([name, fields]) => {
        const at = entry.lines.find((line) => line.name === name)?.at ?? entry.at
        return isFields(fields) ? [study({ name, at, fields }, readings)] : []
      }),
    )
}

function study(block: LoadBlock, readings: readonly Reading[]): StoredStudy {
  const problem = problemIn(block)
  // Figures that do not go together give none.
  const worked = problem === null ? block : { ...block, fields: {} }
  const pressure = positive(worked, 'pressure', 'pressure')
  const gauge = textOf(block, 'gauge')
  const own = readings.filter(({ name }) => name === gauge)
  return {
    name: block.name,
    at: block.at,
    pressure,
    cylinder: pressure && cylinderOf(worked, pressure),
    accumulator: pressure && accumulatorOf(worked, pressure),
    gas: pressure && gasOf(worked, pressure),
    liquid: pressure && liquidOf(worked, pressure),
    spring: springOf(worked),
    raised: raisedOf(worked),
    problem,
    isInch: ['pressure', 'rate', 'mass'].some((field) => isInch(textOf(block, field))),
    typed: (field) => textOf(block, field),
    gauge: gauge === null ? null : { name: gauge, reading: own.find(({ limit }) => limit !== null) ?? own[0] ?? null },
  }
}

function cylinderOf(block: LoadBlock, pressure: Rational): StoredCylinder | null {
  const bore = positive(block, 'bore', 'length')
  if (bore === null) return null
  const rod = positive(block, 'rod', 'length')
  return {
    push: pressureForce(pressure, boreArea(bore)),
    ring: rod && cylinderForces(pressure, bore, rod),
    isBlocked: textOf(block, 'rod-side') === 'blocked',
  }
}

/** Filled slowly, which takes in the most oil: p₁ · V₁ = p₂ · V₂, absolute. What pushes it out is at most p₂ · V₂ · ln(p₂/p₁). */
function accumulatorOf(block: LoadBlock, pressure: Rational): StoredOil | null {
  const volume = positive(block, 'gas', 'volume')
  const precharge = positive(block, 'precharge', 'pressure')
  if (volume === null || precharge === null) return null
  const [first, second] = [add(precharge, usualAtmosphere), add(pressure, usualAtmosphere)]
  const gas = multiply(volume, divide(first, second))
  return { volume: subtract(volume, gas), energy: isothermalEnergy(second, gas, first) }
}

function gasOf(block: LoadBlock, pressure: Rational): StoredGas | null {
  const volume = positive(block, 'gas', 'volume')
  if (volume === null || textOf(block, 'precharge') !== null) return null
  const energy = gasEnergy(add(pressure, usualAtmosphere), volume, usualAtmosphere)
  return { energy, distance: leastDistance(energy, divide(energy, tntEnergy.pcc)) }
}

function liquidOf(block: LoadBlock, pressure: Rational): StoredOil | null {
  const volume = positive(block, 'liquid', 'volume')
  if (volume === null) return null
  return {
    volume: compressedVolume(volume, pressure, oilModulus),
    energy: liquidEnergy(volume, pressure, oilModulus),
  }
}

function springOf(block: LoadBlock): StoredSpring | null {
  const [rate, travel] = [positive(block, 'rate', 'stiffness'), positive(block, 'travel', 'length')]
  return rate && travel && { force: multiply(rate, travel), energy: springEnergy(rate, travel) }
}

function raisedOf(block: LoadBlock): StoredStudy['raised'] {
  const [mass, height] = [positive(block, 'mass', 'mass'), positive(block, 'height', 'length')]
  return mass && height && { energy: raisedEnergy(mass, height) }
}

/** What each figure is a figure of. */
const kinds: Readonly<Record<string, QuantityKind>> = {
  pressure: 'pressure',
  bore: 'length',
  rod: 'length',
  gas: 'volume',
  precharge: 'pressure',
  liquid: 'volume',
  rate: 'stiffness',
  travel: 'length',
  mass: 'mass',
  height: 'length',
}

/** What a figure is of no use without. */
const partners: readonly (readonly [string, string])[] = [
  ['bore', 'pressure'],
  ['gas', 'pressure'],
  ['liquid', 'pressure'],
  ['rod', 'bore'],
  ['rod-side', 'rod'],
  ['precharge', 'gas'],
  ['rate', 'travel'],
  ['travel', 'rate'],
  ['mass', 'height'],
  ['height', 'mass'],
]

function problemIn(block: LoadBlock): StoredProblem | null {
  const typed = (field: string) => textOf(block, field)
  for (const [field, kind] of Object.entries(kinds)) {
    const text = typed(field)
    if (text === null || text.includes('??') || positive(block, field, kind) !== null) continue
    return {
      message: `"${field} ${text}" is no ${kindWords(kind)} above 0.`,
      advice: `Write a figure with its unit, like ${examples[field]}.`,
    }
  }
  const [lonely, partner] = partners.find(([field, other]) => typed(field) !== null && typed(other) === null) ?? []
  if (lonely !== undefined && partner !== undefined)
    return {
      message: `There is ${inWords(lonely)} ${typed(lonely)} and no ${partner}: nothing can be worked out of it.`,
      advice: `Add ${partner} ${examples[partner]}, or leave ${inWords(lonely)} out.`,
    }
  const amount = (field: string) => amountOf(block, field, kinds[field] ?? 'length')
  const [bore, rod, pressure, precharge] = [amount('bore'), amount('rod'), amount('pressure'), amount('precharge')]
  if (bore && rod && compare(rod, bore) >= 0)
    return {
      message: `The rod is ${typed('rod')} and the bore ${typed('bore')}: the rod would not fit in.`,
      advice: 'Look at bore and rod once more.',
    }
  if (pressure && precharge && compare(pressure, precharge) <= 0)
    return {
      message: `The precharge is ${typed('precharge')} and the pressure ${typed('pressure')}: the accumulator would hold no oil.`,
      advice: 'Look at both pressures once more; both are gauge pressures, the pressure at its highest.',
    }
  return null
}

const examples: Readonly<Record<string, string>> = {
  pressure: '18 MPa',
  bore: '160 mm',
  rod: '90 mm',
  gas: '10 L',
  precharge: '8 MPa',
  liquid: '12 L',
  rate: '12 N/mm',
  travel: '60 mm',
  mass: '640 kg',
  height: '1.2 m',
}

function positive(block: LoadBlock, field: string, kind: QuantityKind): Rational | null {
  const amount = amountOf(block, field, kind)
  return amount && amount.numerator > 0n ? amount : null
}

function kindWords(kind: QuantityKind): string {
  return kind === 'stiffness' ? 'spring rate' : kind
}

function inWords(field: string): string {
  return field.replaceAll('-', ' ')
}

function isInch(typed: string | null): boolean {
  const parsed = typed === null ? null : parseQuantity(typed)
  return parsed?.ok === true && unitBySymbol(parsed.value.unit)?.system === 'inch'
}

/** The pressure that the gauge may meet: where the rod side is blocked, that of the rod side. */
export function highestPressure({ pressure, cylinder }: StoredStudy): Rational | null {
  return cylinder?.isBlocked && cylinder.ring ? cylinder.ring.blocked : pressure
}

/** The unit that the pressure was typed in. */
export function pressureUnit({ typed }: StoredStudy): string {
  const parsed = parseQuantity(typed('pressure') ?? '', 'pressure')
  return parsed.ok ? parsed.value.unit : 'kPa'
}

function isFields(value: PlainValue | undefined): value is { readonly [key: string]: PlainValue } {
  return typeof value === 'object' && !Array.isArray(value)
}
