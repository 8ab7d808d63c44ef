/** One sign as a reader sees it, with the screen columns it takes. */
export interface ShownSign {
  readonly text: string
  readonly width: number
  /** Offset of the sign in the text it came from, and past its end. */
  readonly start: number
  readonly end: number
}

const tabStop = 4
// Unicode East Asian Width W and F, near enough for aligning a mark: CJK, kana, Hangul, full-width forms, emoji.
const wide =
  /^[\p{Script=Han}\p{Script=Hiragana}\p{Script=Katakana}\p{Script=Hangul}\u3000-\u303e\uff01-\uff60\uffe0-\uffe6]|^\p{Emoji_Presentation}|^\p{Emoji}\ufe0f/u
// Signs that would steer the terminal or turn the direction of the text around.
const steering = /[\p{Cc}\u061c\u200e\u200f\u2028\u2029\u202a-\u202e\u2066-\u2069]/gu

/**
 * A line cut into the signs a reader sees: letters keep their accents, a tab becomes blanks up to its stop,
 * and what would steer a terminal is shown as a sign instead.
 */
export function shownSigns(line: string): readonly ShownSign[] {
  const signs: ShownSign[] = []
  let column = 0
  for (const { segment, index } of new Intl.Segmenter('en').segment(line)) {
    const blanks = tabStop - (column % tabStop)
    const text = segment === '\t' ? ' '.repeat(blanks) : withoutSteering(segment)
    const width = segment === '\t' ? blanks : wide.test(text) ? 2 : 1
    signs.push({ text, width, start: index, end: index + segment.length })
    column += width
  }
  return signs
}

/** Text that cannot steer a terminal: control signs stand as pictures (`␛`), direction marks as `�`. */
export function withoutSteering(text: string): string {
  return text.replace(steering, (sign) => {
    const code = sign.charCodeAt(0)
    if (code < 0x20) return String.fromCharCode(0x2400 + code)
    return code === 0x7f ? '\u2421' : '\ufffd'
  })
}

/** Screen columns of signs laid side by side. */
export function widthOf(signs: readonly ShownSign[]): number {
  return signs.reduce((sum, sign) => sum + sign.width, 0)
}
