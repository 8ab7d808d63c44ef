import { cutToFit, linesToFit, textWidth } from './letter-widths.ts'
import {
  arrowHead,
  box,
  type Drawing,
  drawingOf,
  hatch,
  type Point,
  path,
  round,
  SMALL,
  short,
  solid,
  text,
  way,
} from './svg.ts'

/** A load on the hook. Figures come as they are printed elsewhere; only the shape is worked out from numbers. */
export interface SlingPlan {
  readonly id: string
  /** `drum` */
  readonly name: string
  /** `4.2 t ± 10 %, reckoned with 4.62 t`. */
  readonly load: string
  /** One upright leg, two, or more of which the outer two are drawn in front. */
  readonly legs: number
  /** Of three and four: how many are counted on. */
  readonly carrying: number
  /** The two outer legs; both the same where the load hangs in the middle. The first is the one nearer to the weight. */
  readonly first: SlingLeg
  readonly second: SlingLeg
  readonly isOffCentre: boolean
  /** What is printed about the lengths: `Hook 2.61 m above the points, points 3 m apart.`; empty where they are not known. */
  readonly lengths: string
  /** Further sentences: where the weight sits, hitch, tag lines. */
  readonly notes: readonly string[]
  /** What carries, in the order of the train. */
  readonly gear: readonly GearUse[]
}

export interface SlingLeg {
  /** Degrees from horizontal. */
  readonly angle: number
  readonly angleText: string
  /** `2.83 m`; null where it is not known. */
  readonly length: string | null
  /** `2 870 kg` */
  readonly tension: string
  /** Level distance of its hook-on point from under the hook, as printed; null where it is not known. */
  readonly distance: string | null
}

export interface GearUse {
  readonly name: string
  /** Per cent of its capacity; null where it is not known. */
  readonly used: number | null
  readonly usedText: string
  readonly isWeakest: boolean
}

const width = 440
const middle = width / 2
const hook = { x: middle, y: 34 }
/** Room for the legs. */
const widest = 210
const tallest = 118
const boxHeight = 40

export function slingPlanDrawing(plan: SlingPlan): Drawing {
  const points = hookPoints(plan)
  const bottom = points.y + boxHeight
  const dimensions = plan.legs > 1 ? distances(plan, points) : { parts: [], height: 0 }
  const notes = noteLines(plan)
  const noteTop = bottom + dimensions.height + 20
  const gearTop = noteTop + notes.length * 13
  return drawingOf({
    id: plan.id,
    title: `Lifting plan: ${plan.name}`,
    says: describe(plan),
    width,
    height: gearTop + (plan.gear.length === 0 ? 0 : 6 + plan.gear.length * 16),
    parts: [
      hatch(plan.id).definition,
      ...hookMark(),
      ...(plan.legs === 1 ? uprightLeg(plan, points) : legs(plan, points)),
      ...loadBox(plan, points),
      ...dimensions.parts,
      ...notes.map((line, index) => text(middle, noteTop + index * 13, line, { size: SMALL, at: 'middle' })),
      ...gearRows(plan, gearTop + 6),
    ],
  })
}

interface HookPoints {
  readonly first: number
  readonly second: number
  readonly y: number
}

/** Both hook-on points on one level, the hook above what hangs from it: to scale, as the angles say. */
function hookPoints({ legs: count, first, second }: SlingPlan): HookPoints {
  if (count === 1) return { first: middle - 60, second: middle + 60, y: hook.y + 90 }
  const [a, b] = [levelOf(first), levelOf(second)]
  const scale = Math.min(tallest, widest / (a + b))
  return { first: middle - a * scale, second: middle + b * scale, y: hook.y + scale }
}

/** Level reach of a leg whose hook is 1 above its point. */
function levelOf({ angle }: SlingLeg): number {
  return 1 / Math.tan((angle * Math.PI) / 180)
}

function hookMark(): readonly string[] {
  const { x, y } = hook
  return [
    path(`M${short(x)} 2V${short(y - 22)}`, { width: 2 }),
    path(`M${short(x)} ${short(y - 22)}v8a7 7 0 1 1 -7 7`, { width: 2.6 }),
  ]
}

function uprightLeg({ first }: SlingPlan, { y }: HookPoints): readonly string[] {
  return [
    path(`M${short(hook.x)} ${short(hook.y)}V${short(y + 4)}`, { width: 2.4 }),
    text(hook.x + 10, (hook.y + y) / 2, first.tension, { bold: true }),
  ]
}

function legs(plan: SlingPlan, { first, second, y }: HookPoints): readonly string[] {
  const ends = [
    { leg: plan.first, point: { x: first, y }, side: -1 },
    { leg: plan.second, point: { x: second, y }, side: 1 },
  ]
  const behind = plan.legs === 2 ? [] : [0.45, ...(plan.legs > 3 ? [-0.45] : [])]
  const back = behind
    .map((part) => way([hook, { x: hook.x + (part > 0 ? second - hook.x : hook.x - first) * part, y }]))
    .join('')
  return [
    ...(back === '' ? [] : [path(back, { width: 1.4, dashed: true })]),
    path(ends.map(({ point }) => way([hook, point])).join(''), { width: 2.4 }),
    path(ends.map(({ point }) => round(point, 3.5)).join(''), { width: 1.4, fill: 'currentColor' }),
    ...ends.flatMap(({ leg, point, side }) => [...angleMark(leg, point, side), ...legText(leg, point, side)]),
  ]
}

function legText(leg: SlingLeg, point: Point, side: number): readonly string[] {
  const at = side < 0 ? 'end' : 'start'
  const place = { x: (hook.x + point.x) / 2 + side * 12, y: (hook.y + point.y) / 2 - 4 }
  return [
    text(place.x, place.y, leg.tension, { size: 13, bold: true, at }),
    ...(leg.length === null ? [] : [text(place.x + side * 6, place.y + 13, leg.length, { size: SMALL, at })]),
  ]
}

/** The angle between the level and the leg. */
function angleMark({ angle, angleText }: SlingLeg, point: Point, side: number): readonly string[] {
  const inward = -side
  const radius = 26
  const turn = (angle * Math.PI) / 180
  const start = { x: point.x + inward * radius, y: point.y }
  const end = { x: point.x + inward * Math.cos(turn) * radius, y: point.y - Math.sin(turn) * radius }
  const size = textWidth(angleText, SMALL)
  const label = {
    x: point.x + inward * (radius * Math.cos(turn / 2) + 5),
    y: point.y - radius * Math.sin(turn / 2) * 0.75 - 1,
  }
  const room = Math.abs(hook.x - point.x)
  const arc = `M${short(start.x)} ${short(start.y)}A${radius} ${radius} 0 0 ${inward > 0 ? 0 : 1} ${short(end.x)} ${short(end.y)}`
  // Where the legs stand too steep for it, the angle is told outside.
  const isOutside = room < radius + size + 8
  return [
    path(arc, { width: 0.8 }),
    isOutside
      ? text(point.x + side * 9, point.y - 4, angleText, { size: SMALL, at: side < 0 ? 'end' : 'start' })
      : text(label.x, label.y, angleText, { size: SMALL, at: inward > 0 ? 'start' : 'end' }),
  ]
}

function loadBox({ id, legs: count, isOffCentre }: SlingPlan, { first, second, y }: HookPoints): readonly string[] {
  const centre = { x: hook.x, y: y + boxHeight / 2 }
  const [left, right] = [first - 16, second + 16]
  return [
    path(box(left, y + 4, right - left, boxHeight - 8), { width: 1.6, fill: hatch(id).fill }),
    ...(count > 1 ? [path(`M${short(hook.x)} ${short(hook.y + 4)}V${short(y)}`, { width: 0.7, dashed: true })] : []),
    ...centreOfGravity(centre, isOffCentre ? 9 : 7),
  ]
}

/** Two black quarters in a circle on paper: the usual mark of a centre of gravity. */
function centreOfGravity({ x, y }: Point, radius: number): readonly string[] {
  const quarter = (dx: number, dy: number): string =>
    `M${short(x)} ${short(y)}h${short(dx * radius)}A${radius} ${radius} 0 0 ${dx * dy > 0 ? 1 : 0} ${short(x)} ${short(y + dy * radius)}z`
  return [path(round({ x, y }, radius), { width: 1.4 }), solid(quarter(1, -1) + quarter(-1, 1))]
}

function distances(
  { first, second, isOffCentre }: SlingPlan,
  points: HookPoints,
): { readonly parts: readonly string[]; readonly height: number } {
  if (first.distance === null || second.distance === null) return { parts: [], height: 0 }
  const y = points.y + boxHeight + 9
  const spans = [
    { from: points.first, to: hook.x, says: first.distance },
    { from: hook.x, to: points.second, says: second.distance },
  ]
  const lines = spans.map(
    ({ from, to }) =>
      `M${short(from)} ${short(y - 5)}v10M${short(from)} ${short(y)}H${short(to)}M${short(to)} ${short(y - 5)}v10`,
  )
  const heads = spans.flatMap(({ from, to }) => [
    arrowHead({ x: to, y }, { x: from, y }),
    arrowHead({ x: from, y }, { x: to, y }),
  ])
  return {
    parts: [
      path(lines.join(''), { width: 0.8 }),
      solid(heads.join('')),
      ...spans.map(({ from, to, says }, index) => {
        const isWide = textWidth(says, SMALL) < to - from - 4
        const at = isWide ? 'middle' : index === 0 ? 'end' : 'start'
        const x = isWide ? (from + to) / 2 : index === 0 ? to - 5 : from + 5
        return text(x, y + 14, says, { size: SMALL, at, bold: isOffCentre })
      }),
    ],
    height: 26,
  }
}

function noteLines(plan: SlingPlan): readonly string[] {
  const scale =
    plan.legs === 1
      ? 'Not to scale.'
      : plan.legs > 2
        ? 'Angles are true and from horizontal, seen square to a leg. The load is not to scale.'
        : plan.lengths === ''
          ? 'Angles are true and from horizontal; lengths are not given. The load is not to scale.'
          : 'Legs and hook-on points to scale, angles from horizontal. The load is not to scale.'
  return [
    ...linesToFit(`${plan.name}: ${plan.load}`, SMALL, width - 8, 2),
    ...[...(plan.lengths === '' ? [] : [plan.lengths]), ...plan.notes, scale].flatMap((note) =>
      linesToFit(note, SMALL, width - 8, 2),
    ),
  ]
}

function gearRows({ id, gear }: SlingPlan, top: number): readonly string[] {
  const [left, long, end] = [178, 128, 316]
  return gear.flatMap(({ name, used, usedText, isWeakest }, index) => {
    const y = top + index * 16
    const part = used === null ? 0 : Math.min(1, used / 100)
    return [
      text(left - 8, y + 10, cutToFit(name, SMALL, left - 12, isWeakest), { size: SMALL, at: 'end', bold: isWeakest }),
      ...(used === null
        ? []
        : [
            path(box(left, y + 2, long, 9), { width: 0.8 }),
            path(box(left, y + 2, long * part, 9), { width: 0.8, fill: hatch(id).fill }),
          ]),
      text(used === null ? left : end - 4, y + 10, `${usedText}${isWeakest ? ', weakest' : ''}`, {
        size: SMALL,
        bold: isWeakest,
      }),
    ]
  })
}

function describe(plan: SlingPlan): string {
  const { first, second } = plan
  const leg = ({ tension, angleText, length }: SlingLeg): string =>
    `${length === null ? '' : `${length} long, `}${angleText} from horizontal, pulls ${tension}`
  const pulls =
    plan.legs === 1
      ? `One upright leg pulls ${first.tension}.`
      : plan.isOffCentre
        ? `Leg nearer to the weight: ${leg(first)}. Other leg: ${leg(second)}.`
        : `${plan.legs} legs${plan.carrying < plan.legs ? `, ${plan.carrying} counted on` : ''}: each ${leg(first)}.`
  const gear = plan.gear
    .map(({ name, usedText, isWeakest }) => `${name} ${usedText}${isWeakest ? ' (weakest)' : ''}`)
    .join('; ')
  return [`${plan.name}: ${plan.load}.`, pulls, plan.lengths, ...plan.notes, gear === '' ? '' : `${gear}.`]
    .filter(Boolean)
    .join(' ')
}
