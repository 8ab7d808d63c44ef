import type { QuantityKind } from './quantity-types.ts'
import type { Unit } from './unit-table.ts'
import { unitBySpelling } from './units.ts'

/** A unit found behind a number in prose. */
export interface UnitInText {
  readonly unit: Unit
  readonly to: number
}

/** No unit is written with more letters. */
const LONGEST = 28
const separator = /-|[ \u00A0\u2009\u202F]{0,2}/y
/** One word of a unit: `N·m`, `foot-pounds`, `kg/cm²`, `°C`, `in.`; a slash before a digit ends it. */
const word = /(?:[°º˚µμΩ%‰"″”Δ′\p{L}]|(?<=\p{L})[\d²³₂]|[·⋅∙•.^-](?=[\p{L}%°])|\/(?=\p{L})|(?<=\p{L})\.)+/uy
const country = /[ ]?\((?:US|UK|A|g)\)/y
const between = /[ \u00A0]/y
/** `2 in the hub`, `5 lb in a drum`: a preposition, not inches. */
const isPreposition = /(?:^|[\s])in$/
const followedByWord = /^[ \u00A0]+\p{L}/u

/**
 * The unit that stands at `at`, behind a number: the longest spelling that is one. `asked` chooses between torque and energy.
 * `isWhole` says that the number before it has no decimals, so that `in` before another word is a preposition.
 */
export function unitInText(text: string, at: number, isWhole: boolean, asked?: QuantityKind): UnitInText | null {
  separator.lastIndex = at
  const from = at + (separator.exec(text)?.[0].length ?? 0)
  const following = text.slice(from, from + LONGEST)
  for (const end of endsOf(following)) {
    const typed = following.slice(0, end)
    const behind = text.slice(from + end, from + end + 3)
    if (/^(?:[\p{L}\d·²³]|[-/]\p{L})/u.test(behind)) continue
    if (isPreposition.test(typed) && followedByWord.test(behind) && (isWhole || typed !== 'in')) continue
    const unit = unitBySpelling(typed, asked)
    if (unit && unit.symbol !== '') return { unit, to: from + end }
  }
  return null
}

/** Where a unit may end, the farthest first: after each of up to three words, before a full stop, a hyphen or a slash. */
function endsOf(following: string): readonly number[] {
  const ends: number[] = []
  let at = 0
  for (let count = 0; count < 3; count++) {
    word.lastIndex = at
    const found = word.exec(following)?.[0]
    if (found === undefined) break
    for (const joint of found.matchAll(/[-/.]/g)) ends.push(at + joint.index)
    at += found.length
    ends.push(at)
    country.lastIndex = at
    const of = country.exec(following)?.[0]
    if (of !== undefined) ends.push(at + of.length)
    between.lastIndex = at
    if (!between.test(following)) break
    at += 1
  }
  // A full stop ends the sentence, or is left to what follows: `1/2 in. (13 mm)`.
  return ends.filter((end) => end > 0 && following[end - 1] !== '.').sort((a, b) => b - a)
}
