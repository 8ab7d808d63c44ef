import { cutToFit, linesToFit, textWidth } from './letter-widths.ts'
import { arrowHead, box, type Drawing, drawingOf, hatch, type Point, path, round, SMALL, solid, text } from './svg.ts'

/** Two machines on one line, dials at their coupling. Lengths as typed; null where they are not given. */
export interface AlignmentPlan {
  readonly id: string
  /** The machine that is moved, and the one that stays. */
  readonly moved: string
  readonly fixed: string
  readonly method: 'reverse-dial' | 'rim-and-face'
  /** Between the two dials; of a face dial, the circle that it runs on. */
  readonly apart: string | null
  readonly circle: string | null
  /** From the dial on the fixed half, or the rim dial. */
  readonly toFront: string
  readonly toRear: string
  readonly sag: string | null
  /** Where the feet shall stand cold, high positive. */
  readonly targetFront: string | null
  readonly targetRear: string | null
}

const width = 440
const shaft = 92
const base = 136
/** Along the shaft, not to scale: the dial planes, the feet. */
const at = { first: 152, second: 206, front: 272, rear: 404 } as const
const rim = { top: shaft - 25, bottom: shaft + 25 }

export function alignmentDrawing(plan: AlignmentPlan): Drawing {
  const notes = notesOf(plan).flatMap((note) => linesToFit(note, SMALL, width - 8, 3))
  const lengths = lengthsOf(plan)
  const lengthTop = 196
  const noteTop = lengthTop + lengths.length * 20 + 12
  return drawingOf({
    id: plan.id,
    title: `Alignment: ${plan.moved} to ${plan.fixed}`,
    says: [...lengths.map(({ name, says }) => `${name}: ${says}.`), ...notesOf(plan)].join(' '),
    width,
    height: noteTop + notes.length * 13,
    parts: [
      hatch(plan.id).definition,
      ...machines(plan),
      ...(plan.method === 'reverse-dial' ? reverseDials() : rimAndFace()),
      ...highMark(),
      ...lengths.flatMap(({ from, to, says }, row) => lengthLine(from, to, says, lengthTop + row * 20)),
      ...notes.map((note, row) => text(4, noteTop + 4 + row * 13, note, { size: SMALL })),
    ],
  })
}

function machines({ id, moved, fixed }: AlignmentPlan): readonly string[] {
  const feet = [
    { x: 28, name: '' },
    { x: 92, name: '' },
    { x: at.front, name: 'front' },
    { x: at.rear, name: 'rear' },
  ]
  const shims = feet.filter(({ name }) => name !== '').map(({ x }) => box(x - 11, base - 3, 22, 3))
  return [
    path(`M8 ${base}H116M248 ${base}H432`, { width: 2 }),
    path(
      [
        box(14, shaft - 32, 92, 64),
        box(256, shaft - 32, 168, 64),
        ...feet.map(({ x }) => box(x - 11, shaft + 32, 22, base - 3 - shaft - 32)),
        box(at.first - 8, rim.top, 16, 50),
        box(at.second - 8, rim.top, 16, 50),
      ].join(''),
      { width: 1.6 },
    ),
    path(`M106 ${shaft - 4}H144M106 ${shaft + 4}H144M214 ${shaft - 4}H256M214 ${shaft + 4}H256`, { width: 1.2 }),
    path(`M2 ${shaft}H438`, { width: 0.5, dashed: true }),
    path(shims.join(''), { width: 0.8, fill: hatch(id).fill }),
    text(60, shaft - 8, cutToFit(fixed, SMALL, 84, true), { size: SMALL, at: 'middle', bold: true }),
    text(60, shaft + 16, 'stays', { size: SMALL, at: 'middle' }),
    text(340, shaft - 8, cutToFit(moved, SMALL, 150, true), { size: SMALL, at: 'middle', bold: true }),
    text(340, shaft + 16, 'is moved', { size: SMALL, at: 'middle' }),
    text(at.front, base + 13, 'front feet', { size: SMALL, at: 'middle' }),
    text(at.rear, base + 13, 'rear feet', { size: SMALL, at: 'middle' }),
  ]
}

/** Each dial is carried by one shaft and runs on the half of the other; the second stands opposite the first. */
function reverseDials(): readonly string[] {
  const [first, second] = [
    { x: at.first, y: 38 },
    { x: at.second, y: 2 * shaft - 38 },
  ]
  return [
    path(`M234 ${shaft - 4}V14H${at.first}V25M126 ${shaft + 4}V${2 * shaft - 14}H${at.second}V${2 * shaft - 25}`, {
      width: 2,
    }),
    path(`M${at.first} 51V${rim.top}M${at.second} ${2 * shaft - 51}V${rim.bottom}`, { width: 2.6 }),
    ...dial(first, 'A'),
    ...dial(second, 'B'),
  ]
}

/** Both are carried by the moved shaft; A runs on the rim of the fixed half, B on its face. */
function rimAndFace(): readonly string[] {
  const [first, second] = [
    { x: at.first, y: 38 },
    { x: at.first + 36, y: 38 },
  ]
  return [
    path(`M234 ${shaft - 4}V14H${at.first}V25M${second.x} 14V25`, { width: 2 }),
    path(`M${at.first} 51V${rim.top}M${second.x} 51V${rim.top + 10}H${at.first + 8}`, { width: 2.6 }),
    ...dial(first, 'A'),
    ...dial(second, 'B'),
  ]
}

function dial(centre: Point, letter: string): readonly string[] {
  return [
    path(round(centre, 13), { width: 1.8 }),
    text(centre.x, centre.y + 4.3, letter, { size: 12, at: 'middle', bold: true }),
  ]
}

function highMark(): readonly string[] {
  return [
    path(`M340 52V26`, { width: 1.4 }),
    solid(arrowHead({ x: 340, y: 40 }, { x: 340, y: 20 }, 9)),
    text(348, 32, 'high is +', { size: SMALL, bold: true }),
  ]
}

interface Length {
  readonly name: string
  readonly from: number
  readonly to: number
  readonly says: string
}

function lengthsOf({ method, apart, toFront, toRear }: AlignmentPlan): readonly Length[] {
  return [
    ...(method === 'reverse-dial' && apart !== null
      ? [{ name: 'Between the dials', from: at.first, to: at.second, says: apart }]
      : []),
    { name: 'From dial A to the front feet', from: at.first, to: at.front, says: toFront },
    { name: 'From dial A to the rear feet', from: at.first, to: at.rear, says: toRear },
  ]
}

function lengthLine(from: number, to: number, says: string, y: number): readonly string[] {
  const isWide = textWidth(says, SMALL) < to - from - 6
  return [
    path(`M${from} ${y - 5}v10M${to} ${y - 5}v10M${from} ${y}H${to}`, { width: 0.8 }),
    solid(arrowHead({ x: to, y }, { x: from, y }) + arrowHead({ x: from, y }, { x: to, y })),
    isWide
      ? text((from + to) / 2, y - 3, says, { size: SMALL, at: 'middle', bold: true })
      : text(from - 5, y + 3.5, says, { size: SMALL, at: 'end', bold: true }),
  ]
}

/** The rules of `src/trade/alignment`, in words: what is read, what its sign means, what the feet do. */
function notesOf(plan: AlignmentPlan): readonly string[] {
  const { method, apart, circle, toFront, toRear, sag, targetFront, targetRear } = plan
  const droop =
    sag === null
      ? ''
      : ` Add the sag of the bar, ${sag}, to ${method === 'reverse-dial' ? 'every bottom reading' : 'the bottom reading of A'}.`
  const targets = [
    ...(targetFront === null ? [] : [`front ${targetFront}`]),
    ...(targetRear === null ? [] : [`rear ${targetRear}`]),
  ]
  const shall = targets.length === 0 ? [] : [`The feet shall stand, cold: ${targets.join(', ')} (high is +).`]
  const dials = `Turn both shafts together. Each dial at 0 at the top, read at the bottom; the stem pushed in reads +.${droop}`
  if (method === 'rim-and-face') {
    const by = circle ?? 'circle'
    return [
      'A runs on the rim, B on the face of the fixed half; the moved shaft carries both.',
      dials,
      'Face = gap at the top less gap at the bottom, so + is open at the top. Rim = full swing of A, + where the moved shaft is high.',
      `Shim at the front feet = face × ${toFront} / ${by} − rim / 2; at the rear feet = face × ${toRear} / ${by} − rim / 2. + put in, − take out.`,
      ...shall,
      'Check for soft feet first. Not to scale.',
    ]
  }
  const by = apart ?? 'distance of the dials'
  return [
    'A runs on the fixed half and the moved shaft carries it; B the other way round.',
    dials,
    `Height of the moved shaft at A = A / 2, at B = − B / 2. Slope = (− B / 2 − A / 2) / ${by}.`,
    `Front feet stand at A / 2 + slope × ${toFront}, rear feet at A / 2 + slope × ${toRear}. Shim = where they shall stand − where they stand: + put in, − take out.`,
    ...shall,
    'Check for soft feet first. Not to scale.',
  ]
}
