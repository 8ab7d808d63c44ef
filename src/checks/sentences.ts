/** A word of a sentence, and the mark that stands behind it. */
export interface Word {
  readonly typed: string
  /** In small letters, with a straight apostrophe. */
  readonly low: string
  /** `,` `;` `:` `.` `?` `!` or nothing; a dash counts as a comma. */
  readonly mark: string
  /** Where it begins in the text it was taken from. */
  readonly from: number
}

/** A full stop inside `0.5` or `M20 8.8` ends nothing: a sentence ends before a blank and a capital. */
export function sentencesOf(text: string): readonly string[] {
  return text.split(/(?<=[.!?;])\s+(?=\p{Lu})/u)
}

/** The words of a text in order; what stands in brackets is an aside and is left out. */
export function wordsOf(text: string): readonly Word[] {
  const outside = text.replace(/\([^()]*\)/g, (aside) => ' '.repeat(aside.length))
  const words: Word[] = []
  for (const match of outside.matchAll(/\S+/g)) {
    const [chunk] = match
    const start = chunk.search(ofWord)
    const typed = start === -1 ? '' : chunk.slice(start, endOfWord(chunk))
    const behind = chunk.slice(start + typed.length)
    if (typed === '') {
      const last = words.at(-1)
      // A mark that stands by itself, such as a dash or a comma behind brackets, belongs to the word before it.
      if (last && last.mark === '') words[words.length - 1] = { ...last, mark: markIn(chunk) }
      continue
    }
    const low = typed.toLowerCase().replaceAll('’', "'")
    words.push({ typed, low, mark: markIn(behind), from: match.index + start })
  }
  return words
}

const ofWord = /[\p{L}\p{N}…]/u
const lastOfWord = /[\p{L}\p{N}…°%’']/u

/** Behind the last letter of a chunk: `rail.` ends before its full stop. */
function endOfWord(chunk: string): number {
  let end = chunk.length
  while (end > 0 && !lastOfWord.test(chunk.charAt(end - 1))) end -= 1
  return end
}

const markIn = (marks: string): string => (/[–—]/.test(marks) ? ',' : (/[,;:.?!]/.exec(marks)?.[0] ?? ''))

/** `1 200 kg`, `350 to 430 N·m` and `20 °C`: a number and its unit are one word. */
export function countWords(sentence: string): number {
  const joined = sentence
    .replace(/(\d)[ \u00a0\u202f](?=\d{3}\b)/g, '$1')
    .replace(
      /(\d)\s+(?=(?:[µμ]?m|[ckm]m|k?g|t|k?N|N·m|lbf·ft|lbf|in|ft|psi|[kM]?Pa|bar|°[CF]?|%|s|h|min|[mkM]?[VAW]|L|mL|Hz|rpm)(?![\p{L}]))/gu,
      '$1',
    )
  return joined.split(/\s+/).filter((word) => /[\p{L}\p{N}]/u.test(word)).length
}
