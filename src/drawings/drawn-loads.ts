import { type LiftStudy, studyLift, type TrainLink, weakestLink } from '../model/loads/lift-study.ts'
import type { LoadBlock } from '../model/loads/load-data.ts'
import { textOf } from '../model/loads/load-data.ts'
import { type SupportedBy, studySupport } from '../model/loads/support-study.ts'
import { percentOf } from '../model/passes/work-out-lift.ts'
import { shown } from '../model/passes/worked-figures.ts'
import type { Resources } from '../model/resources.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { divide, rational } from '../quantities/rational.ts'
import type { StepFile } from '../step-file/step-file.ts'
import type { Place } from '../text/place.ts'
import { fromNumber, toNumber } from '../trade/binary.ts'
import { turns } from '../trade/lifting/leg-inputs.ts'
import { inWords } from '../wording/state-text.ts'
import type { StepSheet } from '../wording/step-file-parts.ts'
import { namedFields } from './named-fields.ts'
import { type GearUse, type SlingLeg, type SlingPlan, slingPlanDrawing } from './sling-plan.ts'
import { type SupportPlan, supportPlanDrawing } from './support-plan.ts'
import { type Drawing, drawingId } from './svg.ts'

/** Lifts and supports of a step as drawings, with the figures of their workings: what is not worked out is not drawn. */

export function liftDrawings(step: StepSheet, { resources }: StepFile): readonly Drawing[] {
  return blocksOf(step, 'lift').flatMap((block) => {
    const plan = slingPlan(step.id, studyLift(block, placed(resources)))
    return plan === null ? [] : [slingPlanDrawing(plan)]
  })
}

export function supportDrawings(step: StepSheet, { resources }: StepFile): readonly Drawing[] {
  return blocksOf(step, 'support').flatMap((block) => supportDrawing(step.id, block, placed(resources)) ?? [])
}

/** A step file has no places; what is worked out here points nowhere. */
const nowhere: Place = { file: '', start: 0, end: 0 }

function blocksOf(step: StepSheet, key: 'lift' | 'support'): readonly LoadBlock[] {
  return namedFields(step, key).map((block) => ({ ...block, at: nowhere }))
}

function placed({ tools, gear, parts, consumables, ppe }: StepFile['resources']): Resources {
  const all = (group: typeof tools): Resources['gear'] => group.map((resource) => ({ ...resource, at: nowhere }))
  return { tools: all(tools), gear: all(gear), parts: all(parts), consumables: all(consumables), ppe: all(ppe) }
}

function slingPlan(step: string, study: LiftStudy): SlingPlan | null {
  const { block, weight, load, tension, legs, offCentre, problem } = study
  if (weight === null || load === null || tension === null || problem !== null) return null
  // A weight that is told to sit elsewhere must not be drawn in the middle.
  if (textOf(block, 'centre-of-gravity') !== null && offCentre === null) return null
  if (legs.count === 1 ? textOf(block, 'legs') === null : legs.lean === null) return null
  const pair = offCentre
    ? { first: slingLeg(study, offCentre.near), second: slingLeg(study, offCentre.far) }
    : { first: evenLeg(study, tension), second: evenLeg(study, tension) }
  const reckoned = shown(load, weight.unit, 4, 'up')
  return {
    id: drawingId('lift', `${step}/${block.name}`),
    name: inWords(block.name),
    load: reckoned === weight.typed ? weight.typed : `${weight.typed}, reckoned with ${reckoned}`,
    legs: legs.count,
    carrying: study.carrying,
    ...pair,
    isOffCentre: offCentre !== null,
    lengths: lengthsText(study),
    notes: notesOf(study),
    gear: study.train.map((link) => gearUse(link, study)),
  }
}

/** Where a leg reaches to, from the height of the hook and its angle. */
function slingLeg({ weight, legs }: LiftStudy, leg: NonNullable<LiftStudy['offCentre']>['near']): SlingLeg {
  const height = legs.lean?.height ?? null
  const angle = toNumber(leg.angle)
  const level = height && fromNumber(toNumber(height) / Math.tan((angle * Math.PI) / 180))
  return {
    angle,
    angleText: angleText(leg.angle),
    length: shown(leg.length, 'm'),
    tension: shown(leg.tension, weight?.unit ?? 'kg', 3, 'up'),
    distance: level && shown(level, 'm'),
  }
}

function evenLeg({ weight, legs, block }: LiftStudy, tension: Rational): SlingLeg {
  const { lean } = legs
  const degrees = lean?.degrees ?? rational(90)
  const length = lean?.height ? shown(divide(lean.height, lean.rise), 'm') : null
  return {
    angle: toNumber(degrees),
    angleText: angleText(degrees),
    length: textOf(block, 'leg-length') ?? length,
    tension: shown(tension, weight?.unit ?? 'kg', 3, 'up'),
    distance: lean?.span && legs.count === 2 ? shown(divide(lean.span, rational(2)), 'm') : null,
  }
}

function angleText(degrees: Rational): string {
  return shown(turns(degrees), '°', 3)
}

function lengthsText({ legs, offCentre }: LiftStudy): string {
  const { lean } = legs
  if (lean === null) return ''
  const frame =
    lean.height && lean.span
      ? `Hook ${shown(lean.height, 'm')} above the points, points ${shown(lean.span, 'm')} apart.`
      : ''
  return offCentre || lean.by.includes('°') ? frame : `Legs ${lean.by}.`
}

function notesOf({ block, legs, carrying, offCentre }: LiftStudy): readonly string[] {
  const tagLines = textOf(block, 'tag-lines')
  const hitch = textOf(block, 'hitch')
  const typed = textOf(block, 'angle')
  return [
    ...(typed === null || /from\s+(?:the\s+)?(?:horizontal|level)$/i.test(typed)
      ? []
      : [`The angle is written as ${typed}.`]),
    ...(carrying < legs.count
      ? [`${legs.count} legs, ${carrying} of them counted on: a stiff load may hang on two.`]
      : []),
    ...(offCentre ? [`Weight ${offCentre.typed}; the hook stands above it.`] : []),
    ...(offCentre?.hasLegsAlike
      ? ['Legs of one length will not hang level: drawn as they must be to hang level.']
      : []),
    ...(hitch === null || hitch === 'straight' ? [] : [`Hitch: ${hitch}.`]),
    ...(tagLines === null ? [] : [`${tagLines} tag ${tagLines === '1' ? 'line' : 'lines'}.`]),
  ]
}

function gearUse(link: TrainLink, study: LiftStudy): GearUse {
  const weakest = weakestLink(study)
  const each = link.takes === 'leg' ? ', one in each leg' : ''
  const used = link.used && toNumber(link.used) * 100
  return {
    name: `${link.carrier.name}${each}`,
    used,
    usedText: link.used === null ? 'capacity or pull not known' : percentOf(link.used),
    isWeakest: study.train.length > 1 && weakest !== null && link.carrier.id === weakest.carrier.id,
  }
}

function supportDrawing(step: string, block: LoadBlock, resources: Resources): Drawing | null {
  const { weight, items, stability } = studySupport(block, resources)
  if (weight === null || items.length === 0) return null
  const most = items.reduce<SupportedBy | null>(
    (worst, item) =>
      item.used !== null && (!worst?.used || toNumber(item.used) > toNumber(worst.used)) ? item : worst,
    null,
  )
  const plan: SupportPlan = {
    id: drawingId('support', `${step}/${block.name}`),
    name: inWords(block.name),
    load: `${weight.typed}, reckoned with ${shown(weight.most, weight.unit, 4, 'up')}`,
    supports: items.map((item) => ({
      name: nameOf(item, items),
      share: toNumber(item.share),
      shareText: `${percentOf(item.share)}${item.isEven ? ', taken as even' : ''}`,
      carries: item.carries === null ? '' : shown(item.carries, weight.unit, 4, 'up'),
      used: item.used === null ? '' : `${percentOf(item.used)} used`,
      isWeakest: items.length > 1 && item === most && items.some((other) => other !== item && isLess(other, item)),
    })),
    notes: [
      ...noteOf(block, 'under', 'Under'),
      ...noteOf(block, 'ground', 'Ground'),
      ...noteOf(block, 'ground-pressure', 'The ground may carry'),
      ...(stability ? [`It tips when it leans by ${shown(turns(stability.tippingAngle), '°', 2, 'down')}.`] : []),
    ],
  }
  return supportPlanDrawing(plan)
}

function isLess(one: SupportedBy, other: SupportedBy): boolean {
  return one.used !== null && other.used !== null && toNumber(one.used) < toNumber(other.used)
}

function noteOf(block: LoadBlock, key: string, label: string): readonly string[] {
  const typed = textOf(block, key)
  return typed === null ? [] : [`${label}: ${typed.replace(/\.$/, '')}.`]
}

/** Two stands of one make are told apart by the names that the author gave them. */
function nameOf({ carrier }: SupportedBy, items: readonly SupportedBy[]): string {
  return items.some(({ carrier: other }) => other.id !== carrier.id && other.name === carrier.name)
    ? inWords(carrier.id)
    : carrier.name
}
