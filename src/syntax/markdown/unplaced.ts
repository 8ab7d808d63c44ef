import { unplacedText } from '../faults/faults.ts'
import { firstWords, type Positioned, placeOfNode, type Reading, report, sliceOf } from './reading.ts'

/** Whatever the language has no place for is reported, never dropped in silence. */
export function unplaced(reading: Reading, node: Positioned): void {
  report(reading, unplacedText, {
    at: placeOfNode(reading, node),
    message: `"${firstWords(sliceOf(reading, node))}" has a form that the language does not have.`,
    advice: 'Write it as a paragraph, a bullet or a table.',
  })
}
