import type { StepFile } from '../step-file/step-file.ts'
import { type Block, boxOf, forkOf, gap, sheet } from './flow-blocks.ts'
import { flowPhases } from './flow-units.ts'
import { linesToFit } from './letter-widths.ts'
import { arrowHead, type Drawing, drawingOf, path, SMALL, short, solid, text } from './svg.ts'

/*
 * The flow from top to bottom: a box for each phase, a six-sided box for each decision with its ways side by side below, ways back as
 * lines at the left. The layout is our own: phases come in one order, so every box but the ways of a decision stands in one column,
 * and there is nothing left for a layout library to find out.
 */

const tallest = 600
/** More ways back than this beside one another are told in their boxes only. */
const mostRails = 3

/** In as many pieces as it takes; empty for a procedure of one phase without a decision. */
export function flowChart(stepFile: StepFile): readonly Drawing[] {
  const phases = flowPhases(stepFile)
  if (phases.length < 2 && phases.every(({ asks }) => asks.length === 0)) return []
  const pieces = piecesOf(phases.flatMap((phase) => [boxOf(phase), ...phase.asks.map(forkOf)]))
  return pieces.map((blocks, index) => pieceDrawing(blocks, index, pieces.length, pieces[index + 1]?.[0]))
}

/** A decision stays with its phase. */
function piecesOf(blocks: readonly Block[]): readonly (readonly Block[])[] {
  const pieces: Block[][] = []
  let height = 0
  blocks.forEach((block, index) => {
    const next = blocks[index + 1]
    const together = block.height + (next?.kind === 'fork' ? next.height + gap : 0)
    const last = pieces.at(-1)
    if (last === undefined || (block.kind === 'box' && height + together > tallest)) {
      pieces.push([block])
      height = block.height
    } else {
      last.push(block)
      height += block.height + gap
    }
  })
  return pieces
}

function pieceDrawing(blocks: readonly Block[], index: number, count: number, next: Block | undefined): Drawing {
  const tops: number[] = []
  let y = index === 0 ? 4 : 22
  for (const block of blocks) {
    tops.push(y)
    y += block.height + gap
  }
  const part = count === 1 ? '' : `, part ${index + 1} of ${count}`
  return drawingOf({
    id: `flow-${index + 1}`,
    title: `The way through the work${part}`,
    says: blocks.map(({ says }) => says).join(' '),
    width: sheet.width,
    height: y + 12,
    parts: [
      ...(index === 0
        ? []
        : [text(sheet.middle, 10, 'from the part before', { size: SMALL, at: 'middle' }), ...arrow(13, 21)]),
      ...blocks.flatMap((block, row) => block.draw(tops[row] ?? 0)),
      ...blocks.flatMap((block, row) =>
        block.leadsOn ? arrow((tops[row] ?? 0) + block.height, (tops[row + 1] ?? y) - 0.5) : [],
      ),
      text(
        sheet.middle,
        y + 9,
        next === undefined
          ? 'End of the job'
          : linesToFit(`goes on with ${next.name}`, SMALL, sheet.right - sheet.left, 1).join(''),
        { size: SMALL, at: 'middle', bold: true },
      ),
      ...rails(blocks, tops),
    ],
  })
}

function arrow(from: number, to: number): readonly string[] {
  const x = sheet.middle
  return [
    path(`M${x} ${short(from)}V${short(to - 4)}`, { width: 1.4 }),
    solid(arrowHead({ x, y: from }, { x, y: to }, 7)),
  ]
}

/** Ways back to a phase of the same piece, a line each in a lane of its own. */
function rails(blocks: readonly Block[], tops: readonly number[]): readonly string[] {
  const ways = blocks.flatMap((block, row) =>
    block.backTo.flatMap((number) => {
      const target = blocks.findIndex(({ kind, number: own }) => kind === 'box' && own === number)
      return target === -1 || target >= row
        ? []
        : [{ from: (tops[row] ?? 0) + Math.min(block.height - 10, 30), to: (tops[target] ?? 0) + 14 }]
    }),
  )
  return ways.slice(0, mostRails).flatMap(({ from, to }, lane) => {
    const x = sheet.left - 10 - lane * 9
    return [
      path(`M${sheet.left} ${short(from)}H${short(x)}V${short(to)}H${short(sheet.left - 5)}`, {
        width: 1.2,
        dashed: true,
      }),
      solid(arrowHead({ x, y: to }, { x: sheet.left, y: to }, 6)),
    ]
  })
}
