import { supportCaution } from '../../trade/cautions.ts'
import { turns } from '../../trade/lifting/leg-inputs.ts'
import { inPercent, loadBlocks, textOf } from '../loads/load-data.ts'
import { type SupportedBy, type SupportStudy, studySupport } from '../loads/support-study.ts'
import type { Step } from '../procedure.ts'
import type { Resources } from '../resources.ts'
import type { WorkedFigure, Working } from '../working.ts'
import { percentOf } from './work-out-lift.ts'
import { shown, shownNumber, workedFigure } from './worked-figures.ts'

/** What each stand, jack or crib of a step gets, and what that uses of it. */
export function workOutSupports(step: Step, resources: Resources): readonly Working[] {
  return loadBlocks(step, 'support').flatMap((block) => {
    const study = studySupport(block, resources)
    return study.weight === null || study.items.length === 0 ? [] : [workingOf({ ...study, weight: study.weight })]
  })
}

type WeighedSupport = SupportStudy & { readonly weight: NonNullable<SupportStudy['weight']> }

function workingOf(study: WeighedSupport): Working {
  const { block, weight, items, stability, built } = study
  const mass = (value: NonNullable<SupportedBy['carries']>) => shown(value, weight.unit, 4, 'up')
  const bears = (value: NonNullable<SupportedBy['carries']>) => shown(value, weight.unit, 3, 'down')
  const isEven = items.some((item) => item.isEven)
  const says = items.flatMap(({ carrier, carries, used }) => {
    if (carries === null) return []
    const of = used === null ? '' : `, ${percentOf(used)} of its capacity`
    return [`${capital(nameOf(carrier, items))} carries ${mass(carries)}${of}.`]
  })
  return {
    key: 'support',
    of: block.name,
    says: [...says, ...tipping(study), ...(isEven ? ['No shares are given: taken as even.'] : [])].join(' '),
    figures: [...items.flatMap(figuresOf(weight.unit)), ...stabilityFigures(study)],
    formula: `load = most that it weighs × share; use = load/capacity${stability ? '; tips at atan(spread/2/height)' : ''}${built ? `; ${built.formula}` : ''}`,
    lines: [
      `Weight ${weight.typed}: at most ${mass(weight.most)}`,
      ...(isEven ? ['Shares not told: taken as even. Where the weight sits nearer to one of them, it gets more.'] : []),
      ...(built?.capacity ? [`${built.line}: carries ${bears(built.capacity)}`] : []),
      ...items.map((item) => lineOf(item, items, mass, bears)),
      ...stabilityLines(study),
    ],
    source: `Statics. The rating must be enough for the load: 29 CFR 1910.244(a)(1)(i). Capacities are those of the gear list.${built ? ` ${built.what}: ${built.source}.` : ''}`,
    caution: supportCaution,
    at: block.at,
  }
}

function tipping({ stability }: WeighedSupport): readonly string[] {
  if (stability === null) return []
  return [`It tips when it leans by ${shown(turns(stability.tippingAngle), '°', 2, 'down')}: keep well away from that.`]
}

function stabilityFigures({ stability, weight }: WeighedSupport): readonly WorkedFigure[] {
  if (stability === null) return []
  const angle = turns(stability.tippingAngle)
  return [
    workedFigure({
      name: 'tipping-angle',
      kind: 'angle',
      unit: '°',
      value: angle,
      digits: 3,
      rounding: 'down',
      isRounded: true,
    }),
    workedFigure({
      name: 'tipping-push',
      kind: 'mass',
      unit: weight.unit,
      value: stability.tippingPush,
      rounding: 'down',
    }),
  ]
}

function stabilityLines({ block, stability, weight }: WeighedSupport): readonly string[] {
  if (stability === null) return []
  const [spread, height] = [textOf(block, 'spread'), textOf(block, 'height')]
  const push = shown(stability.tippingPush, weight.unit, 3, 'down')
  return [
    `Spread ${spread}, weight ${height} up: tips at ${shown(turns(stability.tippingAngle), '°', 3, 'down')}, or at a level push of ${push} at that height`,
  ]
}

function figuresOf(unit: string) {
  return ({ carrier, carries, used }: SupportedBy): readonly WorkedFigure[] => [
    ...(carries
      ? [workedFigure({ name: `share:${carrier.id}`, kind: 'mass', unit, value: carries, digits: 5, rounding: 'up' })]
      : []),
    ...(used
      ? [workedFigure({ name: `use:${carrier.id}`, kind: 'ratio', unit: '%', value: used, digits: 4, rounding: 'up' })]
      : []),
  ]
}

function lineOf(
  { carrier, capacity, share, carries, used }: SupportedBy,
  items: readonly SupportedBy[],
  mass: (value: NonNullable<SupportedBy['carries']>) => string,
  bears: (value: NonNullable<SupportedBy['carries']>) => string,
): string {
  const part = `${nameOf(carrier, items)}: ${shownNumber(inPercent(share))} %`
  if (carries === null) return part
  if (capacity === null || used === null) return `${part} = ${mass(carries)}; no capacity is known`
  const of = capacity === carrier.capacity ? carrier.capacityTyped : bears(capacity)
  return `${part} = ${mass(carries)} of ${of} = ${percentOf(used)}`
}

/** Two stands of one make are told apart by the names that the author gave them. */
function nameOf({ id, name }: SupportedBy['carrier'], items: readonly SupportedBy[]): string {
  return items.some((item) => item.carrier.id !== id && item.carrier.name === name) ? id.replaceAll('-', ' ') : name
}

function capital(text: string): string {
  return text.charAt(0).toUpperCase() + text.slice(1)
}
