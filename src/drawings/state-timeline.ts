import type { StepFile } from '../step-file/step-file.ts'
import { inWords } from '../wording/state-text.ts'
import { cutToFit, textWidth } from './letter-widths.ts'
import { type Danger, type StateColumn, type StateLane, stateColumns, stateLanes } from './state-events.ts'
import { box, type Drawing, drawingOf, path, SMALL, short, text } from './svg.ts'

const width = 516
const left = 128
const right = width - 4
const head = 30
const rowHeight = 17
const barHeight = 13
/** From here on a new phase begins a new piece. */
const full = left + (right - left) * 0.78

/** How the equipment stands along the steps: a lane for each declared state, in as many pieces as it takes. Empty without such states. */
export function stateTimeline(stepFile: StepFile): readonly Drawing[] {
  const lanes = stateLanes(stepFile)
  const columns = stateColumns(stepFile, lanes)
  if (lanes.length === 0 || columns.length === 0) return []
  const pieces = piecesOf(lanes, columns)
  return pieces.map((piece, index) => pieceDrawing(piece, index, pieces.length))
}

interface Piece {
  readonly lanes: readonly StateLane[]
  /** By state, as the piece begins. */
  readonly before: ReadonlyMap<string, string>
  readonly columns: readonly (StateColumn & { readonly x: number })[]
}

/** Columns are set as narrow as their texts allow; where the sheet is full a new piece begins, at a phase if that is near. */
function piecesOf(lanes: readonly StateLane[], columns: readonly StateColumn[]): readonly Piece[] {
  const pieces: Piece[] = []
  const values = new Map(lanes.map(({ id, start }) => [id, start]))
  let before = new Map(values)
  let placed: (StateColumn & { x: number })[] = []
  let free = new Map<string, number>()
  let next = left
  const begin = (): void => {
    before = new Map(values)
    placed = []
    free = new Map(lanes.map(({ id }) => [id, left + roomFor(values.get(id) ?? '')]))
    next = left + 4
  }
  const close = (): void => {
    if (placed.length > 0) pieces.push({ lanes: lanesOf(lanes, before, placed), before, columns: placed })
    begin()
  }
  begin()
  for (const column of columns) {
    if (column.phase !== '' && next > full) close()
    const fits = (): { x: number; end: number } => {
      const touched = [...column.changes.keys(), ...column.proved]
      const x = Math.max(next, ...touched.map((id) => free.get(id) ?? left))
      const ends = touched.map((id) => x + roomFor(column.changes.get(id) ?? '', column.proved.has(id)))
      return { x, end: Math.max(x + labelWidth(column), ...ends) }
    }
    if (fits().end > right) close()
    const { x } = fits()
    placed.push({ ...column, x })
    next = x + labelWidth(column)
    for (const [id, value] of column.changes) {
      values.set(id, value)
      free.set(id, x + roomFor(value, column.proved.has(id)))
    }
    for (const id of column.proved)
      free.set(
        id,
        Math.max(free.get(id) ?? 0, x + (column.changes.has(id) ? roomFor(column.changes.get(id) ?? '', true) : 13)),
      )
  }
  close()
  return pieces
}

function roomFor(value: string, isProved = false): number {
  return (value === '' ? 0 : textWidth(inWords(value), SMALL, true) + 7) + (isProved ? 12 : 0)
}

function labelWidth({ number, phase }: StateColumn): number {
  return phase === '' ? textWidth(number, SMALL) + 6 : Math.max(9, textWidth(phase, SMALL, true) - 20)
}

/** Lanes that change or are proved in the piece, and those that can hurt all along. */
function lanesOf(
  lanes: readonly StateLane[],
  before: ReadonlyMap<string, string>,
  columns: readonly StateColumn[],
): readonly StateLane[] {
  return lanes.filter(
    ({ id, danger }) =>
      danger(before.get(id) ?? '') === 'can-hurt' ||
      columns.some(({ changes, proved }) => changes.has(id) || proved.has(id)),
  )
}

interface Segment {
  readonly from: number
  readonly to: number
  readonly value: string
  readonly isProvedAtStart: boolean
}

function pieceDrawing(piece: Piece, index: number, count: number): Drawing {
  const { lanes, columns } = piece
  const bottom = head + lanes.length * rowHeight
  const numbers = columns.flatMap(({ number }) => (number === '' ? [] : [number]))
  const part = count === 1 ? '' : `, part ${index + 1} of ${count}`
  return drawingOf({
    id: `states-${index + 1}`,
    title: `How the equipment stands along the steps${part}`,
    says: describe(piece, numbers),
    width,
    height: bottom + 24,
    parts: [
      ...heads(columns, lanes.length),
      ...lanes.flatMap((lane, row) => laneName(lane, row)),
      ...bars(piece),
      ...provedMarks(piece),
      ...legend(piece, bottom + 8),
    ],
  })
}

/** Lines stand between the lanes only, so that none runs through a value. */
function heads(columns: Piece['columns'], lanes: number): readonly string[] {
  const phases = columns.filter(({ phase }) => phase !== '')
  const steps = columns.filter(({ phase }) => phase === '')
  const shown = phases.filter((column, index) => {
    const later = phases[index + 1]
    return later === undefined || later.x - column.x > textWidth(column.phase, SMALL, true) + 2
  })
  const dashes = (xs: readonly number[]): string =>
    Array.from({ length: lanes }, (_, row) =>
      xs.map((x) => `M${short(x)} ${short(head + row * rowHeight - 2)}v3.5`).join(''),
    ).join('')
  return [
    path(phases.map(({ x }) => `M${short(x)} 2V${head - 2}`).join('') + dashes(phases.map(({ x }) => x)), {
      width: 1.4,
    }),
    path(dashes(steps.map(({ x }) => x)), { width: 0.5 }),
    ...shown.map(({ x, phase }) => text(x + 3, 11, phase, { size: SMALL, bold: true })),
    ...steps.map(({ x, number }) => text(x, head - 7, number, { size: SMALL })),
  ]
}

function laneName({ name }: StateLane, row: number): readonly string[] {
  return [text(left - 6, head + row * rowHeight + 11.5, cutToFit(name, SMALL, left - 8), { size: SMALL, at: 'end' })]
}

function segmentsOf(piece: Piece, id: string): readonly Segment[] {
  const segments: Segment[] = []
  let open = { from: left, value: piece.before.get(id) ?? '', isProvedAtStart: false }
  for (const { x, changes, proved } of piece.columns) {
    const value = changes.get(id)
    if (value === undefined) continue
    segments.push({ ...open, to: x })
    open = { from: x, value, isProvedAtStart: proved.has(id) }
  }
  return [...segments, { ...open, to: right }].filter(({ from, to }) => to > from)
}

/** What can hurt is framed thick, what is safe thin; where nothing is said of it there is a line only. */
function bars(piece: Piece): readonly string[] {
  const shapes: Record<Danger, string[]> = { 'can-hurt': [], safe: [], none: [] }
  const texts: string[] = []
  piece.lanes.forEach((lane, row) => {
    const y = head + row * rowHeight + 1.5
    for (const { from, to, value, isProvedAtStart } of segmentsOf(piece, lane.id)) {
      const danger = lane.danger(value)
      const [start, end] = [from + 1.2, to - 1.2]
      shapes[danger].push(
        danger === 'none'
          ? `M${short(start)} ${short(y + barHeight)}H${short(end)}`
          : box(start, y, end - start, barHeight),
      )
      texts.push(
        text(from + (isProvedAtStart ? 14 : 4), y + 10, inWords(value), { size: SMALL, bold: danger === 'can-hurt' }),
      )
    }
  })
  const looks = { 'can-hurt': 2.2, safe: 0.7, none: 0.7 } as const
  return [
    ...(['none', 'safe', 'can-hurt'] as const).flatMap((danger) =>
      shapes[danger].length === 0 ? [] : [path(shapes[danger].join(''), { width: looks[danger] })],
    ),
    ...texts,
  ]
}

function provedMarks({ lanes, columns }: Piece): readonly string[] {
  const marks = lanes.flatMap(({ id }, row) =>
    columns.flatMap(({ x, proved }) => (proved.has(id) ? [tickAt(x + 3, head + row * rowHeight + 8)] : [])),
  )
  return marks.length === 0 ? [] : [path(marks.join(''), { width: 2 })]
}

function tickAt(x: number, y: number): string {
  return `M${short(x)} ${short(y)}l3 3.5l5.5 -7`
}

/** Only looks that stand in the piece are explained. */
function legend(piece: Piece, y: number): readonly string[] {
  const seen = new Set(piece.lanes.flatMap((lane) => segmentsOf(piece, lane.id).map(({ value }) => lane.danger(value))))
  const isProved = piece.columns.some(({ proved }) => proved.size > 0)
  const entries = [
    ...(seen.has('can-hurt')
      ? [{ mark: (x: number) => path(box(x, y, 20, 10), { width: 2.2 }), says: 'can hurt' }]
      : []),
    ...(seen.has('safe') ? [{ mark: (x: number) => path(box(x, y, 20, 10), { width: 0.7 }), says: 'safe' }] : []),
    ...(isProved
      ? [{ mark: (x: number) => path(tickAt(x + 8, y + 5.5), { width: 2 }), says: 'proved in this step' }]
      : []),
  ]
  let x = left
  const shown = entries.flatMap(({ mark, says }) => {
    const at = x
    x += 34 + textWidth(says, SMALL) + 12
    return [mark(at), text(at + 26, y + 9, says, { size: SMALL })]
  })
  return [...shown, text(width - 4, y + 9, 'Others stay safe here.', { size: SMALL, at: 'end' })]
}

/** Not every change over again: each is told at its step, and in what must be true where a phase begins. */
function describe({ lanes, columns }: Piece, numbers: readonly string[]): string {
  const proved = columns.filter((column) => column.proved.size > 0).map(({ number }) => number)
  const names = lanes.map(({ name }) => name).join(', ')
  return `Lanes from step ${numbers[0] ?? ''} to ${numbers.at(-1) ?? ''} for ${names}.${proved.length === 0 ? '' : ` Something is proved at ${proved.join(', ')}.`} Every change is told at its step.`
}
