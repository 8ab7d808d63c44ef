import type { FlowAsk, FlowLine, FlowPhase, FlowWay } from './flow-units.ts'
import { linesToFit } from './letter-widths.ts'
import { arrowHead, box, path, SMALL, short, solid, text } from './svg.ts'

/** What stands in the flow: boxes of phases, and decisions with their ways. */

export const sheet = { width: 516, left: 40, right: 476, middle: 258 } as const
export const gap = 17
const boxWidth = sheet.right - sheet.left
/** Ways of a decision stand side by side up to this many, else one below the other. */
const mostColumns = 3

export interface Block {
  readonly kind: 'box' | 'fork'
  /** Number of the phase; empty for a decision. */
  readonly number: string
  readonly name: string
  readonly height: number
  readonly leadsOn: boolean
  /** Numbers of phases that it may go back to. */
  readonly backTo: readonly string[]
  readonly says: string
  readonly draw: (y: number) => readonly string[]
}

export function boxOf(phase: FlowPhase): Block {
  const laid = phaseBox(phase, sheet.left, boxWidth)
  return {
    kind: 'box',
    number: phase.number,
    name: `${phase.number} ${phase.title}`,
    height: laid.height,
    leadsOn: phase.leadsOn,
    backTo: phase.lines.flatMap(({ to }) => to ?? []),
    says: phaseSays(phase),
    draw: laid.draw,
  }
}

function phaseSays({ number, title, positions, lines }: FlowPhase): string {
  return `${[`${number} ${title}`, positions, ...lines.map(({ says }) => says)].filter(Boolean).join('; ')}.`
}

interface Laid {
  readonly height: number
  readonly draw: (y: number) => readonly string[]
}

/** Number, title and a line each for holds, conditions and ways out. `x` is the left side. */
function phaseBox(phase: FlowPhase, x: number, width: number): Laid {
  const isNarrow = width < 300
  const indent = isNarrow ? 34 : 42
  const room = width - indent - 8
  const title = linesToFit(phase.title, 12, room, isNarrow ? 3 : 2, true)
  const positions = phase.positions === '' ? [] : linesToFit(phase.positions, SMALL, room, 2, true)
  const lines = phase.lines.flatMap(({ says, kind }) =>
    linesToFit(says, SMALL, room - 16, isNarrow ? 3 : 2, kind === 'hold').map((line, row) => ({
      says: line,
      kind,
      isFirst: row === 0,
    })),
  )
  const height = 9 + title.length * 14 + positions.length * 12 + lines.length * 12.5 + (lines.length > 0 ? 3 : 0)
  return {
    height,
    draw: (y) => {
      const positionsTop = y + 1 + title.length * 14
      const linesTop = positionsTop + positions.length * 12
      return [
        path(box(x, y, width, height), { width: 1.6 }),
        text(x + 8, y + 16, phase.number, { size: 14, bold: true }),
        ...title.map((line, row) => text(x + indent, y + 15 + row * 14, line, { size: 12, bold: true })),
        ...positions.map((line, row) =>
          text(x + indent, positionsTop + (row + 1) * 12, line, { size: SMALL, bold: true }),
        ),
        ...lines.flatMap(({ says, kind, isFirst }, row) => {
          const at = linesTop + (row + 1) * 12.5
          return [
            ...(isFirst ? lineMark(kind, x + indent + 5, at - 3.4) : []),
            text(x + indent + 16, at, says, { size: SMALL, bold: kind === 'hold' }),
          ]
        }),
      ]
    },
  }
}

/** A bar for a hold, a turn for what is done again, an octagon for a stop, a lozenge for a condition. */
function lineMark(kind: FlowLine['kind'], x: number, y: number): readonly string[] {
  switch (kind) {
    case 'hold':
      return [solid(box(x - 4, y - 4, 8, 8))]
    case 'only':
      return [path(`M${short(x - 4)} ${short(y)}l4 -4 4 4 -4 4z`)]
    case 'stop':
      return [path(octagon(x, y, 4.6), { width: 1.2 })]
    case 'again':
    case 'back':
      return [
        path(`M${short(x + 3.6)} ${short(y - 1.2)}a3.8 3.8 0 1 0 -.6 3.4`, { width: 1.2 }),
        solid(`M${short(x + 5.4)} ${short(y - 3.6)}l-.4 4.2 -3.6 -2.2z`),
      ]
  }
}

function octagon(x: number, y: number, radius: number): string {
  const cut = radius * 0.414
  return `M${short(x - cut)} ${short(y - radius)}H${short(x + cut)}L${short(x + radius)} ${short(y - cut)}V${short(y + cut)}L${short(x + cut)} ${short(y + radius)}H${short(x - cut)}L${short(x - radius)} ${short(y + cut)}V${short(y - cut)}z`
}

export function forkOf(ask: FlowAsk): Block {
  const question = linesToFit(ask.ask, 12, boxWidth - 76, 3, true)
  const asking = 10 + question.length * 14
  const ways = ask.ways.length <= mostColumns ? sideBySide(ask.ways) : oneBelowAnother(ask.ways)
  const height = asking + ways.height
  return {
    kind: 'fork',
    number: '',
    name: `${ask.number} ${ask.ask}`,
    height,
    leadsOn: ask.ways.some(waysOn),
    backTo: [],
    says: `Decision at ${ask.number}: ${ask.ask} ${ask.ways.map((way) => `${way.says}: ${wayEnd(way)}${way.phases.map((phase) => ` (${phaseSays(phase)})`).join('')}`).join('; ')}.`,
    draw: (y) => [
      path(
        `M${sheet.left + 12} ${short(y)}H${sheet.right - 12}L${sheet.right} ${short(y + asking / 2)}L${sheet.right - 12} ${short(y + asking)}H${sheet.left + 12}L${sheet.left} ${short(y + asking / 2)}z`,
        { width: 1.6 },
      ),
      text(sheet.left + 16, y + 17, ask.number, { size: 12, bold: true }),
      ...question.map((line, row) => text(sheet.left + 58, y + 17 + row * 14, line, { size: 12, bold: true })),
      ...ways.draw(y + asking),
    ],
  }
}

function waysOn({ kind, phases }: FlowWay): boolean {
  return kind === 'on' || (kind === 'branch' && phases.some(({ leadsOn }) => leadsOn))
}

function wayEnd({ kind, to }: FlowWay): string {
  if (kind === 'stop') return `STOP${to === '' ? '' : `. ${to}`}`
  return kind === 'on' ? 'go on' : `go to ${to}`
}

/** Each way in a column: its answer, then where it leads; what goes on is gathered below. */
function sideBySide(ways: readonly FlowWay[]): Laid {
  const space = 10
  const width = (boxWidth - space * (ways.length - 1)) / ways.length
  const columns = ways.map((wayOut, index) => {
    const x = sheet.left + index * (width + space)
    return {
      wayOut,
      x,
      middle: x + width / 2,
      answer: linesToFit(wayOut.says, SMALL, width - 6, 3, true),
      end: wayNode(wayOut, x, width),
    }
  })
  const answers = Math.max(0, ...columns.map(({ answer }) => answer.length)) * 12
  const top = 16 + answers + 16
  const height = top + Math.max(0, ...columns.map(({ end }) => end.height)) + (ways.some(waysOn) ? 12 : 0)
  return {
    height,
    draw: (y) => {
      const bus = y + 8
      const joined = y + height
      const on = columns.filter(({ wayOut }) => waysOn(wayOut))
      const [first, last] = [columns[0]?.middle ?? 0, columns.at(-1)?.middle ?? 0]
      const lines = [
        `M${sheet.middle} ${short(y)}V${short(bus)}`,
        `M${short(Math.min(first, sheet.middle))} ${short(bus)}H${short(Math.max(last, sheet.middle))}`,
        ...columns.map(({ middle }) => `M${short(middle)} ${short(bus)}v5M${short(middle)} ${short(y + top - 12)}v8`),
        ...on.map(({ middle, end }) => `M${short(middle)} ${short(y + top + end.height)}V${short(joined)}`),
        ...(on.length === 0
          ? []
          : [
              `M${short(Math.min(sheet.middle, ...on.map(({ middle }) => middle)))} ${short(joined)}H${short(Math.max(sheet.middle, ...on.map(({ middle }) => middle)))}`,
            ]),
      ]
      return [
        path(lines.join(''), { width: 1.4 }),
        solid(
          columns
            .map(({ middle }) => arrowHead({ x: middle, y: y + top - 12 }, { x: middle, y: y + top - 0.5 }, 7))
            .join(''),
        ),
        ...columns.flatMap(({ middle, answer, end }) => [
          ...answer.map((line, row) =>
            text(middle, bus + 16 + row * 12 + (answers - answer.length * 12), line, {
              size: SMALL,
              at: 'middle',
              bold: true,
            }),
          ),
          ...end.draw(y + top),
        ]),
      ]
    },
  }
}

function wayNode(wayOut: FlowWay, x: number, width: number): Laid {
  const phase = wayOut.phases[0]
  if (phase) {
    const laid = phaseBox(phase, x, width)
    const asks = phase.asks.flatMap(({ number, ask, ways }) =>
      [`${number} ${ask}`, ...ways.map((one) => `${one.says}: ${wayEnd(one)}`)].flatMap((says) =>
        linesToFit(says, SMALL, width - 8, 3),
      ),
    )
    return {
      height: laid.height + (asks.length === 0 ? 0 : asks.length * 12 + 6),
      draw: (y) => [
        ...laid.draw(y),
        ...(asks.length === 0 ? [] : [path(box(x, y + laid.height, width, asks.length * 12 + 6))]),
        ...asks.map((line, row) => text(x + 5, y + laid.height + 12 + row * 12, line, { size: SMALL })),
      ],
    }
  }
  const middle = x + width / 2
  if (wayOut.kind !== 'stop') {
    const says = wayEnd(wayOut)
    return {
      height: 22,
      draw: (y) => [
        path(box(middle - 40, y, 80, 22), { width: 1.2 }),
        text(middle, y + 15, says, { at: 'middle', bold: true }),
      ],
    }
  }
  const because = linesToFit(wayOut.to, SMALL, width - 16, 4)
  const height = 20 + because.length * 12
  return {
    height,
    draw: (y) => [
      path(cutBox(x, y, width, height), { width: 2.6 }),
      text(middle, y + 15, 'STOP', { size: 12, at: 'middle', bold: true }),
      ...because.map((line, row) => text(middle, y + 27 + row * 12, line, { size: SMALL, at: 'middle' })),
    ],
  }
}

/** A box with its corners cut: it stops here. */
function cutBox(x: number, y: number, width: number, height: number): string {
  const cut = 7
  return `M${short(x + cut)} ${short(y)}h${short(width - 2 * cut)}l${cut} ${cut}v${short(height - 2 * cut)}l${-cut} ${cut}h${short(2 * cut - width)}l${-cut} ${-cut}v${short(2 * cut - height)}z`
}

/** Many ways: a row each, the answer at the left and where it leads at the right. */
function oneBelowAnother(ways: readonly FlowWay[]): Laid {
  const [left, end] = [sheet.left + 24, sheet.left + 190]
  const room = sheet.right - end
  const rows = ways.map((wayOut) => ({
    wayOut,
    answer: linesToFit(wayOut.says, SMALL, end - left - 30, 4, true),
    node: wayNode(wayOut, end, room),
  }))
  const heights = rows.map(({ answer, node }) => Math.max(answer.length * 12 + 4, node.height))
  const tops = heights.map((_, index) => 10 + heights.slice(0, index).reduce((sum, one) => sum + one + 8, 0))
  const height = 10 + heights.reduce((sum, one) => sum + one + 8, 0) + (ways.some(waysOn) ? 4 : 0)
  return {
    height,
    draw: (y) => {
      const middles = rows.map((_, index) => y + (tops[index] ?? 0) + 11)
      const x = sheet.left + 12
      return [
        path(
          `M${x} ${short(y)}V${short(middles.at(-1) ?? y)}${middles.map((at) => `M${x} ${short(at)}h8M${short(end - 22)} ${short(at)}h14`).join('')}`,
          { width: 1.4 },
        ),
        solid(middles.map((at) => arrowHead({ x: end - 22, y: at }, { x: end - 1, y: at }, 7)).join('')),
        ...rows.flatMap(({ answer, node }, index) => [
          ...answer.map((line, row) =>
            text(left, y + (tops[index] ?? 0) + 14 + row * 12, line, { size: SMALL, bold: true }),
          ),
          ...node.draw(y + (tops[index] ?? 0)),
        ]),
      ]
    },
  }
}
