/** How large a picture must be printed to be read. */
export interface PictureLetters {
  /** Its smallest letters, in its own units; null where it has none that can be found. */
  readonly letters: number | null
  /** Its width in the same units. */
  readonly across: number
}

/**
 * Reads the smallest type and the width from an SVG (SVG 1.1, 7.7 and 10.10). Where letters are scaled inside, or a size
 * has a unit, nothing is claimed: the picture is then set by its height.
 */
export function pictureLetters(svg: string): PictureLetters {
  const box = /\bviewBox\s*=\s*["']\s*[-\d.e]+[\s,]+[-\d.e]+[\s,]+([\d.e]+)/.exec(svg)
  const across = Number(box?.[1] ?? /<svg[^>]*\bwidth\s*=\s*["']([\d.]+)(?:px)?["']/.exec(svg)?.[1])
  if (!(across > 0)) return { letters: null, across: 1 }
  const sizes = [...svg.matchAll(/font-size\s*[:=]\s*["']?\s*([\d.]+)([a-z%]*)/g)]
  const isPlain = sizes.every(([, , unit]) => unit === '' || unit === 'px')
  if (sizes.length === 0 || !isPlain || /\btransform\s*=\s*["'][^"']*(?:scale|matrix)/.test(svg))
    return { letters: null, across }
  return { letters: Math.min(...sizes.map(([, size]) => Number(size))), across }
}
