import { inflateSync } from 'node:zlib'

export interface GreyImage {
  readonly width: number
  readonly height: number
  /** 0 black to 255 white, row by row. */
  readonly pixels: Uint8Array
}

/** An 8-bit grey PNG without interlace, as `pdftoppm -gray -png` writes it (PNG, third edition, sections 9 and 11). */
export function greyImage(png: Uint8Array): GreyImage {
  const bytes = Buffer.from(png)
  const [width, height] = [bytes.readUInt32BE(16), bytes.readUInt32BE(20)]
  const parts: Buffer[] = []
  for (let at = 8; at < bytes.length; at += bytes.readUInt32BE(at) + 12)
    if (bytes.toString('latin1', at + 4, at + 8) === 'IDAT')
      parts.push(bytes.subarray(at + 8, at + 8 + bytes.readUInt32BE(at)))
  const rows = inflateSync(Buffer.concat(parts))
  const pixels = new Uint8Array(width * height)
  for (let y = 0; y < height; y += 1) {
    const filter = rows[y * (width + 1)] ?? 0
    for (let x = 0; x < width; x += 1) {
      const left = x > 0 ? (pixels[y * width + x - 1] ?? 0) : 0
      const up = y > 0 ? (pixels[(y - 1) * width + x] ?? 0) : 0
      const corner = x > 0 && y > 0 ? (pixels[(y - 1) * width + x - 1] ?? 0) : 0
      const predicted = [0, left, up, (left + up) >> 1, nearest(left, up, corner)][filter] ?? 0
      pixels[y * width + x] = (rows[y * (width + 1) + 1 + x] ?? 0) + predicted
    }
  }
  return { width, height, pixels }
}

function nearest(left: number, up: number, corner: number): number {
  const [a, b, c] = [Math.abs(up - corner), Math.abs(left - corner), Math.abs(left + up - 2 * corner)]
  return a <= b && a <= c ? left : b <= c ? up : corner
}

/** The largest difference of the mean grey between squares of `side` pixels: letters may be drawn a little otherwise, nothing may move. */
export function largestDifference(one: GreyImage, other: GreyImage, side = 8): number {
  if (one.width !== other.width || one.height !== other.height) return 255
  let largest = 0
  for (let top = 0; top + side <= one.height; top += side)
    for (let left = 0; left + side <= one.width; left += side)
      largest = Math.max(largest, Math.abs(mean(one, left, top, side) - mean(other, left, top, side)))
  return largest
}

function mean({ width, pixels }: GreyImage, left: number, top: number, side: number): number {
  let sum = 0
  for (let y = top; y < top + side; y += 1)
    for (let x = left; x < left + side; x += 1) sum += pixels[y * width + x] ?? 0
  return sum / side ** 2
}
