/**
 * How wide a text runs, so that drawings leave room for it. Widths of DejaVu Sans, the widest letters that print or page may use:
 * what fits in them fits in the others.
 */

/** Hundredths of the letter size, from the space on. */
const widths =
  '32 40 46 84 64 95 78 27 39 39 50 84 32 36 32 34 64 64 64 64 64 64 64 64 64 64 34 34 84 84 84 53 100 68 69 70 77 63 58 77 75 29 29 66 56 86 75 79 60 79 69 63 61 73 68 99 69 61 69 39 34 39 84 50 50 61 63 55 63 62 35 63 63 28 28 58 28 97 63 61 63 63 41 52 39 63 59 82 59 59 52 64 34 64 84'
    .split(' ')
    .map(Number)
/** A letter that is not in the table: `é` and `±` are no wider, `→` and letters of other scripts stand within it. */
const OTHER = 84
const BOLD = 1.12

export function textWidth(text: string, size: number, isBold = false): number {
  let hundredths = 0
  for (let at = 0; at < text.length; at++) hundredths += widths[text.charCodeAt(at) - 32] ?? OTHER
  return (hundredths * size * (isBold ? BOLD : 1)) / 100
}

/** Cut to fit, with `…` where something is left out. */
export function cutToFit(text: string, size: number, width: number, isBold = false): string {
  if (textWidth(text, size, isBold) <= width) return text
  const letters = [...text]
  while (letters.length > 1 && textWidth(`${letters.join('').trimEnd()}…`, size, isBold) > width) letters.pop()
  return `${letters.join('').trimEnd()}…`
}

/** Lines of words that fit; what does not go into `most` lines ends in `…`. A word longer than a line is cut. */
export function linesToFit(text: string, size: number, width: number, most: number, isBold = false): readonly string[] {
  const lines: string[] = []
  let line = ''
  for (const word of text.split(/[ \t\n]+/).filter(Boolean)) {
    const longer = line === '' ? word : `${line} ${word}`
    if (line === '' || textWidth(longer, size, isBold) <= width) line = longer
    else {
      lines.push(line)
      line = word
    }
  }
  if (line !== '') lines.push(line)
  const kept = lines.slice(0, most)
  if (lines.length > most) kept[most - 1] = `${kept[most - 1]} …`
  return kept.map((one) => cutToFit(one.replace(/ …$/, lines.length > most ? '…' : ' …'), size, width, isBold))
}
