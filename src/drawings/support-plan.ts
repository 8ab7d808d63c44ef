import { cutToFit, linesToFit } from './letter-widths.ts'
import { arrowHead, box, type Drawing, drawingOf, hatch, path, SMALL, short, solid, text } from './svg.ts'

/** A load on stands, jacks or cribs, seen from the side. Figures come as they are printed elsewhere. */
export interface SupportPlan {
  readonly id: string
  readonly name: string
  readonly load: string
  readonly supports: readonly PlannedSupport[]
  /** Further sentences: where they stand, the ground, when it tips. */
  readonly notes: readonly string[]
}

export interface PlannedSupport {
  readonly name: string
  /** As a part of 1. */
  readonly share: number
  /** `55 %` */
  readonly shareText: string
  /** `16.94 t`; empty where it is not known. */
  readonly carries: string
  /** `68 % used`; empty where it is not known. */
  readonly used: string
  readonly isWeakest: boolean
}

const width = 440
const mostSupports = 8
const beam = { top: 34, height: 26 }
const standTop = beam.top + beam.height
const ground = standTop + 62

/** Null where there are more supports than fit side by side. */
export function supportPlanDrawing(plan: SupportPlan): Drawing | null {
  const { supports } = plan
  if (supports.length === 0 || supports.length > mostSupports) return null
  const each = Math.min(150, (width - 20) / supports.length)
  const left = (width - each * supports.length) / 2
  const placeOf = (index: number): number => left + each * (index + 0.5)
  const names = supports.map(({ name, isWeakest }) => linesToFit(name, SMALL, each - 8, 2, isWeakest))
  const nameLines = Math.max(...names.map((lines) => lines.length))
  const notes = [...plan.notes, 'Not to scale.'].flatMap((note) => linesToFit(note, SMALL, width - 8, 2))
  const figures = ground + 14 + nameLines * 12
  const noteTop = figures + 44
  return drawingOf({
    id: plan.id,
    title: `What stands on what: ${plan.name}`,
    says: describe(plan),
    width,
    height: noteTop + notes.length * 13 - 4,
    parts: [
      hatch(plan.id).definition,
      ...load(plan, placeOf),
      ...supports.map((_, index) => stand(placeOf(index), Math.min(each, 90))),
      ...soil(plan.id),
      ...supports.flatMap((support, index) => {
        const x = placeOf(index)
        return [
          ...(names[index] ?? []).map((line, row) =>
            text(x, ground + 16 + row * 12, line, { size: SMALL, at: 'middle', bold: support.isWeakest }),
          ),
          text(x, figures + 3, support.shareText, { size: SMALL, at: 'middle' }),
          text(x, figures + 17, cutToFit(support.carries, 13, each - 4, true), { size: 13, at: 'middle', bold: true }),
          text(
            x,
            figures + 30,
            cutToFit(`${support.used}${support.isWeakest ? ', most' : ''}`, SMALL, each - 4, support.isWeakest),
            { size: SMALL, at: 'middle', bold: support.isWeakest },
          ),
        ]
      }),
      ...notes.map((note, index) => text(width / 2, noteTop + 4 + index * 13, note, { size: SMALL, at: 'middle' })),
    ],
  })
}

/** Two supports share by where the weight sits between them, so there it can be drawn; of more it is not known. */
function load({ id, name, load: says, supports }: SupportPlan, placeOf: (index: number) => number): readonly string[] {
  const [from, to] = [placeOf(0), placeOf(supports.length - 1)]
  const [first, second] = supports
  const isTwo = supports.length === 2 && first !== undefined && second !== undefined
  const x = isTwo ? from + (to - from) * (second.share / (first.share + second.share)) : (from + to) / 2
  const arrow = supports.length <= 2
  return [
    path(box(from - 42, beam.top, to - from + 84, beam.height), { width: 1.6, fill: hatch(id).fill }),
    ...(arrow
      ? [
          path(`M${short(x)} 17V${short(beam.top - 4)}`, { width: 2.4 }),
          solid(arrowHead({ x, y: 10 }, { x, y: beam.top - 1 }, 10)),
        ]
      : []),
    text(width / 2, 11, cutToFit(`${name}: ${says}`, 11, width - 8, true), { at: 'middle', bold: true }),
  ]
}

function stand(x: number, room: number): string {
  const foot = Math.min(28, room / 2 - 4)
  const top = standTop
  return path(
    `M${short(x - 12)} ${top}h24v5h-24zM${short(x - 6)} ${short(top + 5)}V${short(ground - 26)}M${short(x + 6)} ${short(top + 5)}V${short(ground - 26)}M${short(x - 9)} ${short(ground - 26)}h18M${short(x - 9)} ${short(ground - 26)}L${short(x - foot)} ${ground}M${short(x + 9)} ${short(ground - 26)}L${short(x + foot)} ${ground}M${short(x - foot - 3)} ${ground}h${short(2 * foot + 6)}`,
    { width: 1.8 },
  )
}

function soil(id: string): readonly string[] {
  return [
    path(`M10 ${ground + 1}H${width - 10}`, { width: 1.2 }),
    `<path d="${box(10, ground + 1, width - 20, 4)}" fill="${hatch(id).fill}" stroke="none"/>`,
  ]
}

function describe({ name, load: says, supports, notes }: SupportPlan): string {
  const each = supports.map(
    ({ name: stands, shareText, carries, used }) =>
      `${stands}: ${[shareText, carries, used].filter(Boolean).join(', ')}`,
  )
  return [`${name}: ${says}.`, `${each.join('; ')}.`, ...notes].join(' ')
}
