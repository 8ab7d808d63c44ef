import { liftCaution, liftMustSay } from '../../trade/cautions.ts'
import { angleTables } from '../../trade/lifting/hardware.ts'
import { usualChoker } from '../../trade/lifting/hitch.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import { riseOfLeg } from '../../trade/lifting/sling-angle.ts'
import {
  flatterThanTag,
  isTagMissing,
  type LiftStudy,
  studyLift,
  type TrainLink,
  weakestLink,
} from '../loads/lift-study.ts'
import { inPercent, loadBlocks } from '../loads/load-data.ts'
import type { Step } from '../procedure.ts'
import type { Resources } from '../resources.ts'
import type { WorkedFigure, Working } from '../working.ts'
import { shown, shownNumber, wordFigure, workedFigure } from './worked-figures.ts'

/** The pull in the legs of every lift of a step, and what it uses of each carrier. */
export function workOutLifts(step: Step, resources: Resources): readonly Working[] {
  return loadBlocks(step, 'lift').flatMap((block) => {
    const study = studyLift(block, resources)
    if (study.weight === null || study.load === null) return []
    const isOpen = study.tension === null && study.train.every((link) => link.used === null)
    return isOpen ? [] : [workingOf({ ...study, weight: study.weight, load: study.load })]
  })
}

type WeighedLift = LiftStudy & {
  readonly weight: NonNullable<LiftStudy['weight']>
  readonly load: NonNullable<LiftStudy['load']>
}

function workingOf(study: WeighedLift): Working {
  const { block, legs, offCentre } = study
  return {
    key: 'lift',
    of: block.name,
    says: [loadSentence(study), pullSentence(study), weakestSentence(study), tagSentence(study)]
      .filter(Boolean)
      .join(' '),
    figures: figuresOf(study),
    formula: [
      'load = most that it weighs × jerk',
      ...(offCentre
        ? ['S = √(D² + H²); T1 = W D2 S1/(H (D1 + D2)); T2 = W D1 S2/(H (D1 + D2))']
        : legs.count > 1
          ? ['T = W/(n sin a)']
          : []),
      ...(isRerated(study) ? ['rating at angle a = tag × sin a/sin a₀, never more than the tag'] : []),
      'use = pull/capacity',
    ].join('; '),
    lines: linesOf(study),
    source: sourceOf(study),
    caution: [
      'The gear below the hook weighs too: add it on the crane.',
      ...(study.block.fields.radius === undefined
        ? []
        : ['What the crane may lift at this radius stands on its chart.']),
      ...liftMustSay,
      liftCaution,
    ].join(' '),
    at: block.at,
  }
}

/** Whether a sling hangs flatter than its tag is for. */
function isRerated({ train, flattest }: LiftStudy): boolean {
  return train.some(
    ({ carrier, tag }) => carrier.capacity !== null && flatterThanTag(carrier.capacity, tag, flattest) !== null,
  )
}

/** The angle that its tag is for is not known: nothing is taken off for flatter legs. */
function tagSentence({ train, flattest }: WeighedLift): string {
  const untold = train.find(({ tag }) => isTagMissing(tag, flattest))
  if (!untold) return ''
  return `Missing: the angle on the tag of the ${untold.carrier.name.split(',')[0]}; its capacity holds for that angle only.`
}

function loadSentence({ weight, load }: WeighedLift): string {
  return `Reckon with ${shown(load, weight.unit, 4, 'up')}.`
}

function pullSentence({ weight, legs, carrying, tension, flattest, offCentre }: WeighedLift): string {
  if (tension === null || legs.count === 1) return ''
  if (offCentre)
    return `The leg nearer to the weight pulls ${shown(offCentre.near.tension, weight.unit, 3, 'up')}, the other ${shown(offCentre.far.tension, weight.unit, 3, 'up')}.`
  const which =
    carrying === legs.count
      ? `Each of ${legs.count} legs`
      : `Each of the ${carrying} of ${legs.count} legs that are counted on`
  const at = flattest ? ` at ${shown(turns(flattest), '°', 3)} from horizontal` : ''
  return `${which} pulls ${shown(tension, weight.unit, 3, 'up')}${at}.`
}

function weakestSentence(study: WeighedLift): string {
  const weakest = weakestLink(study)
  if (weakest === null) return ''
  // What stands behind a comma describes it further.
  const name = weakest.carrier.name.split(',')[0] ?? weakest.carrier.id
  const used = percentOf(weakest.used)
  return study.train.length === 1
    ? `The ${name} is used to ${used} of its capacity.`
    : `Weakest: ${name}, used to ${used} of its capacity.`
}

/** In whole per cent; up, so that nothing over 100 % reads as 100 %. */
export function percentOf(used: TrainLink['used'] & object): string {
  return `${shownNumber(inPercent(used), used.numerator > used.denominator ? 4 : 3, 'up')} %`
}

function figuresOf(study: WeighedLift): readonly WorkedFigure[] {
  const { weight, load, legs, tension, flattest, offCentre } = study
  const { unit } = weight
  const rounded = legs.lean === null ? {} : ({ isRounded: true } as const)
  const pull = (name: string, value: typeof load): WorkedFigure =>
    workedFigure({ name, kind: 'mass', unit, value, digits: 4, rounding: 'up', ...rounded })
  const weakest = weakestLink(study)
  return [
    workedFigure({ name: 'load', kind: 'mass', unit, value: load, digits: 5, rounding: 'up' }),
    ...(tension && legs.count > 1 ? [pull('leg-tension', tension)] : []),
    ...(offCentre
      ? [pull('near-leg-tension', offCentre.near.tension), pull('far-leg-tension', offCentre.far.tension)]
      : []),
    ...(flattest
      ? [workedFigure({ name: 'leg-angle', kind: 'angle', unit: '°', value: turns(flattest), digits: 4, ...rounded })]
      : []),
    ...study.train.flatMap(({ carrier, used, takes }) =>
      used === null
        ? []
        : [
            workedFigure({
              name: `use:${carrier.id}`,
              kind: 'ratio',
              unit: '%',
              value: used,
              digits: 4,
              rounding: 'up',
              ...(takes === 'leg' ? rounded : {}),
            }),
          ],
    ),
    ...(weakest ? [wordFigure('weakest', weakest.carrier.id)] : []),
  ]
}

function linesOf(study: WeighedLift): readonly string[] {
  const { weight, load, jerk, legs, carrying, tension, offCentre } = study
  const mass = (value: typeof load, rounding: 'up' | 'down' = 'up') => shown(value, weight.unit, 4, rounding)
  const lines: string[] = [`Weight ${weight.typed}: at most ${mass(weight.most)}`]
  if (jerk.numerator !== jerk.denominator)
    lines.push(`With jerk: ${mass(weight.most)} × ${shownNumber(jerk)} = ${mass(load)}`)
  if (legs.count > 1 && legs.lean) {
    if (carrying < legs.count) lines.push(`${carrying} of ${legs.count} legs counted on: a stiff load may hang on two.`)
    const angle = shown(turns(legs.lean.degrees), '°', 3)
    lines.push(
      legs.lean.by.includes('°')
        ? `Legs at ${legs.lean.by}: a = ${angle}`
        : `Legs ${legs.lean.by}: a = ${angle} from horizontal`,
    )
    if (offCentre) lines.push(...offCentreLines(study, offCentre))
    else if (tension)
      lines.push(`T = ${mass(load)}/(${carrying} × ${shownNumber(legs.lean.rise, 4)}) = ${mass(tension)}`)
  }
  for (const link of study.train) lines.push(...tagLines(link, study), lineOf(link, mass), ...wearLines(link))
  return lines
}

function offCentreLines(
  { weight }: WeighedLift,
  { typed, near, far }: NonNullable<LiftStudy['offCentre']>,
): readonly string[] {
  const leg = (name: string, { length, tension, angle }: typeof near) =>
    `${name} leg: ${shown(length, 'm', 3)} long to hang level, ${shown(turns(angle), '°', 3)} from horizontal, pulls ${shown(tension, weight.unit, 4, 'up')}`
  return [`Weight ${typed}, hook above the weight`, leg('Nearer', near), leg('Other', far)]
}

/** How a tag is carried over to the angle of the lift, with the numbers put in. */
function tagLines({ carrier, tag }: TrainLink, { flattest, weight }: WeighedLift): readonly string[] {
  const { capacity, capacityTyped, name } = carrier
  if (tag === null || flattest === null || capacity === null) return []
  if (tag.degrees === null)
    return isTagMissing(tag, flattest) ? [] : [`${name}: the angle on its tag is not told; taken as 60° or flatter`]
  const angle = (degrees: typeof flattest) => shown(turns(degrees), '°', 3)
  const flatter = flatterThanTag(capacity, tag, flattest)
  if (flatter === null)
    return [
      `${name}: tag for legs at ${tag.typed}; at ${angle(flattest)} from horizontal they are no flatter: it holds`,
    ]
  const sines = `${shownNumber(riseOfLeg(flattest), 4)}/${shownNumber(riseOfLeg(tag.degrees), 4)}`
  return [
    `${name}: tag ${capacityTyped} at a₀ = ${angle(tag.degrees)}, legs at a = ${angle(flattest)}: ${capacityTyped} × ${sines} = ${shown(flatter, weight.unit, 4, 'down')}`,
  ]
}

function lineOf(
  { carrier, takes, pull, rating, because, refused, used }: TrainLink,
  mass: (value: NonNullable<TrainLink['pull']>, rounding?: 'up' | 'down') => string,
): string {
  const what = takes === 'leg' ? 'one in each leg' : 'takes the whole load'
  if (refused !== null) return `${carrier.name}: not to be used here: ${refused}`
  if (carrier.capacity === null) return `${carrier.name}: ${what}; no capacity is known`
  const whole = `${carrier.capacityTyped}${because === null || rating === null ? '' : `, here ${mass(rating, 'down')} (${because})`}`
  if (pull === null || used === null) return `${carrier.name}: ${what}; capacity ${whole}; its pull is not known`
  return `${carrier.name}: ${what}: ${mass(pull)} of ${whole} = ${percentOf(used)}`
}

function wearLines({ carrier, wear }: TrainLink): readonly string[] {
  if (!wear?.share) return []
  const worn = `${shownNumber(inPercent(wear.share), 3, 'up')} %`
  return [`${carrier.name}: links ${wear.link} new, ${wear.worn} at the thinnest: ${worn} worn off, 10 % is the end`]
}

function sourceOf(study: LiftStudy): string {
  const { legs, carrying, offCentre, train } = study
  const eyebolt = train.some(({ because }) => because?.includes('eyebolt'))
  const choked = train.some(({ because }) => because?.includes('choked'))
  return [
    ...(legs.count > 1 && !offCentre ? ['Leg tension: provincial crane-safety study quiz, and statics'] : []),
    ...(carrying < legs.count ? ['two of four legs carry: NAVEDTRA 14251 (Steelworker), p. 6-36'] : []),
    ...(offCentre ? ['Off-centre lift: training pages for shipyards (VMASC); leg lengths from the geometry'] : []),
    ...(choked ? [usualChoker.source] : []),
    ...(eyebolt ? [angleTables['shoulder-eyebolt'].source] : []),
    ...(train.some(({ because }) => because?.includes('hot, grade'))
      ? ['chains in heat: alloy chain sling temperature table of a sling maker']
      : []),
    ...(train.some(({ refused }) => refused !== null)
      ? ['slings in heat and cold: 29 CFR 1910.184(f)(3), (h), (i)(8), from memory']
      : []),
    ...(train.some(({ wear }) => wear?.share) ? ['worn links: EN 818-6, from memory'] : []),
    ...(isRerated(study)
      ? ['sling at another angle than its tag: common practice, as in chain sling tables of makers']
      : []),
    'capacity covers the share: DOE-STD-1090-96, 2.2 c. Capacities are those of the gear list',
  ].join('; ')
}
