import { beyondLimits, unreadableLetter } from './faults/faults.ts'
import { placeOf, type Reading, report } from './markdown/reading.ts'

/** In UTF-16 units. A procedure of 2000 steps has about 550 000; a file beyond this is no procedure. */
const LONGEST_TEXT = 1_000_000

/** Findings of one kind about letters; more would say the same again. */
const MOST_LETTERS = 20

/** Signs that cannot be seen, or make the words around them read in another order than they are stored. */
const UNSEEN =
  // biome-ignore lint/suspicious/noControlCharactersInRegex: these are what is looked for
  /[\u0001-\u0008\u000B\u000C\u000E-\u001F\u007F-\u009F\u200B\u200E\u200F\u2028-\u202E\u2060-\u2069\uFEFF\uFFFD\uFFFE\uFFFF]|[\uD800-\uDBFF](?![\uDC00-\uDFFF])|(?<![\uD800-\uDBFF])[\uDC00-\uDFFF]/g

/**
 * Reports letters that cannot be read or seen. False where the text is no text at all, or longer than is read.
 * Directional signs are refused because they can show a sentence other than the one stored (Unicode Technical Report 36).
 */
export function checkLetters(reading: Reading): boolean {
  const { text } = reading.source
  const nul = text.indexOf('\0')
  if (nul >= 0) {
    report(reading, unreadableLetter, {
      at: placeOf(reading, nul, nul + 1),
      message: 'This is not a text file: it holds bytes that stand for no letter.',
      advice: 'Save it as plain text in UTF-8.',
    })
    return false
  }
  if (text.length > LONGEST_TEXT) {
    report(reading, beyondLimits, {
      at: placeOf(reading, 0, 0),
      message: `The file is too large: it has ${text.length} letters, and at most ${LONGEST_TEXT} are read.`,
      advice: 'Split the work into several procedures.',
    })
    return false
  }
  let count = 0
  for (const match of text.matchAll(UNSEEN)) {
    if (match.index === 0 && match[0] === '\uFEFF') continue
    if (++count > MOST_LETTERS) break
    const code = match[0].charCodeAt(0).toString(16).toUpperCase().padStart(4, '0')
    const isLost = match[0] === '\uFFFD' || /[\uD800-\uDFFF]/.test(match[0])
    report(reading, unreadableLetter, {
      at: placeOf(reading, match.index, match.index + 1),
      message: isLost
        ? 'A letter here was lost when the file was saved.'
        : `A sign that cannot be seen stands here (U+${code}); it can change how the words around it read.`,
      advice: isLost ? 'Type the letter again and save the file in UTF-8.' : 'Delete it.',
      ...(isLost
        ? {}
        : {
            edit: {
              title: 'Delete the unseen sign',
              changes: [{ at: placeOf(reading, match.index, match.index + 1), newText: '' }],
            },
          }),
    })
  }
  return true
}
