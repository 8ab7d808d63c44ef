import { encode } from 'uqr'
import type { SquareCode } from './sheet.ts'

/**
 * A square code (ISO/IEC 18004) that says number, revision and digest as plain text, no address.
 * Level M: up to 15 % of it may be dirty. Four blank modules around it, as the standard asks.
 */
export function squareCode(documentNumber: string, revision: string, digest: string): SquareCode {
  const says = `${documentNumber} rev ${revision} ${digest}`
  const matrix = encode(says, { ecc: 'M', boostEcc: false, border: 4 })
  const bars = matrix.data.flatMap((row, y) =>
    darkBars(row).map(({ from, length }) => `M${from} ${y}h${length}v1h-${length}z`),
  )
  return {
    says,
    svg: `<svg xmlns="http://www.w3.org/2000/svg" width="${matrix.size}" height="${matrix.size}" viewBox="0 0 ${matrix.size} ${matrix.size}" shape-rendering="crispEdges"><path d="${bars.join('')}"/></svg>`,
  }
}

function darkBars(row: readonly boolean[]): readonly { from: number; length: number }[] {
  const bars: { from: number; length: number }[] = []
  row.forEach((dark, x) => {
    if (!dark) return
    const bar = bars.at(-1)
    if (bar && bar.from + bar.length === x) bar.length += 1
    else bars.push({ from: x, length: 1 })
  })
  return bars
}
