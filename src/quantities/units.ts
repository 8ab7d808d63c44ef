import { nearestName } from '../text/nearest-name.ts'
import type { QuantityKind } from './quantity-types.ts'
import { type Unit, units } from './unit-table.ts'

/** Finding units by what people type. */

/** Why a unit was not understood, and what to type instead. */
interface UnitProblem {
  readonly message: string
  readonly advice: string
}

export type UnitReading =
  | { readonly ok: true; readonly unit: Unit }
  | { readonly ok: false; readonly problem: UnitProblem }

const shortWords = 'psi psig ksi rpm bar mph inch feet foot ft·lb lb·ft in·lb lb·in'.split(' ')
/** The keys of the spellings in the table, made once: the ways around them are made when somebody types them. */
const keyOfSpelling = new Map<string, string>()
const bySymbol = new Map(units.map((unit) => [unit.symbol, unit]))
const byKey = new Map<string, Unit[]>()
const byLooseKey = new Map<string, Unit[]>()
for (const unit of units)
  for (const spelling of unit.spellings) {
    const key = spellingKey(spelling)
    keyOfSpelling.set(spelling, key)
    addTo(byKey, key, unit)
    // `Nm`, `ftlb`, `degC`: the same without what stands between.
    if (key.includes('·')) addTo(byKey, key.replaceAll('·', ''), unit)
    if (isWord(key)) addTo(byLooseKey, key.toLowerCase(), unit)
  }

/** Spellings that mean different amounts in different places or trades, each with the choices to type. */
const ambiguous: readonly (readonly [spellings: string, why: string, choices: string])[] = [
  ['ton|tons', 'can be 907, 1000 or 1016 kg', '`short ton` (US), `t` (tonne) or `long ton` (UK)'],
  ['oz|ounce', 'can be a weight or a volume', '`oz av` (weight), `US fl oz` or `imp fl oz`'],
  ['gal|gals|gallon', ...usOrImperial('gal')],
  ['qt|quart', ...usOrImperial('qt')],
  ['pt|pint', ...usOrImperial('pt')],
  ['fl oz|floz|fluid ounce', ...usOrImperial('fl oz')],
  ['gpm|gal/min', ...usOrImperial('gal/min')],
  ['gph|gal/h', ...usOrImperial('gal/h')],
  ["'", 'can be feet or minutes of arc', '`ft` or `arcmin`'],
  ['″', 'can be inches or seconds of arc', '`in` or `arcsec`'],
  [
    'psia|psi(a)|bara|bar(a)',
    'counts from vacuum, a gauge from the air around it',
    'the gauge reading in `psi` or `bar`',
  ],
  ['cwt', 'can be 45.4 or 50.8 kg', '`lb` or `kg`'],
]
const ambiguousByKey = new Map(
  ambiguous.flatMap(([spellings, why, choices]) =>
    spellings.split('|').map((spelling) => [spellingKey(spelling), { why, choices }]),
  ),
)

/** The unit with this printed symbol, or null. */
export function unitBySymbol(symbol: string): Unit | null {
  return bySymbol.get(symbol) ?? null
}

/**
 * The unit that a spelling stands for, or null where there is none or it is ambiguous.
 * `asked` chooses where kinds share a spelling: `ft lb` is a torque unless an energy is asked for.
 */
export function unitBySpelling(text: string, asked?: QuantityKind): Unit | null {
  const candidates = candidatesFor(text)
  if (asked === undefined) return candidates[0] ?? null
  return candidates.find((unit) => unit.kind === asked) ?? candidates[0] ?? null
}

export function unitsOfKind(kind: QuantityKind): readonly Unit[] {
  return units.filter((unit) => unit.kind === kind)
}

/** Kinds in the words of a sentence: "a torque", "an energy". */
export function kindInWords(kind: QuantityKind): string {
  if (kind === 'number') return 'a plain number'
  if (kind === 'mass') return 'a mass (weight)'
  return `${/^[ae]/.test(kind) ? 'an' : 'a'} ${kind.replaceAll('-', ' ')}`
}

/** Like `unitBySpelling`, but says what is wrong; a unit of another kind than `asked` is refused with the choices. */
export function readUnit(text: string, asked?: QuantityKind): UnitReading {
  const unit = unitBySpelling(text, asked)
  if (!unit) return { ok: false, problem: unknownUnit(text, asked) }
  if (asked === undefined || unit.kind === asked) return { ok: true, unit }
  const typed = text.trim()
  const message = typed
    ? `"${typed}" is ${kindInWords(unit.kind)}; ${kindInWords(asked)} is wanted here.`
    : `The unit is missing; ${kindInWords(asked)} is wanted here.`
  return { ok: false, problem: { message, advice: `Type ${choicesOf(asked)}.` } }
}

function candidatesFor(text: string): readonly Unit[] {
  const key = keyOfSpelling.get(text) ?? spellingKey(text)
  if (ambiguousByKey.has(key) || ambiguousByKey.has(key.toLowerCase())) return []
  return byKey.get(key) ?? byLooseKey.get(key.toLowerCase()) ?? []
}

function unknownUnit(text: string, asked: QuantityKind | undefined): UnitProblem {
  const typed = text.trim()
  const key = spellingKey(typed)
  const doubt = ambiguousByKey.get(key) ?? ambiguousByKey.get(key.toLowerCase())
  if (doubt) return { message: `"${typed}" alone is not clear: it ${doubt.why}.`, advice: `Type ${doubt.choices}.` }
  if (/\d/.test(typed) && /\s/.test(typed))
    return {
      message: `"${typed}" is not a unit.`,
      advice: 'Type one number and one unit, such as `62 in` for 5 ft 2 in.',
    }
  const spellings = (asked === undefined ? units : unitsOfKind(asked)).flatMap((unit) => unit.spellings)
  const sameLetters = [...byKey].find(([known]) => known.toLowerCase() === key.toLowerCase())?.[1][0]
  const near = typed.length <= 40 ? nearestName(typed, spellings) : null
  const meant = sameLetters ?? (near === null ? null : unitBySpelling(near, asked))
  const message = `"${typed.length <= 40 ? typed : `${typed.slice(0, 40)}…`}" is not a unit.`
  if (meant) return { message, advice: `Did you mean \`${meant.symbol}\`?` }
  if (asked !== undefined) return { message, advice: `Type ${choicesOf(asked)}.` }
  return {
    message,
    advice: 'Type a unit as printed on the instrument, such as `mm`, `in`, `N·m`, `lbf·ft`, `kPa` or `psi`.',
  }
}

/** "`lbf·ft`, `lbf·in` or `N·m`": the common units of a kind, both families. */
function choicesOf(kind: QuantityKind): string {
  if (kind === 'number') return 'the number without a unit'
  const all = unitsOfKind(kind)
  const metric = all.filter((unit) => unit.system !== 'inch').slice(0, 2)
  const inch = all.filter((unit) => unit.system === 'inch').slice(0, 2)
  const symbols = [...metric, ...inch].map((unit) => `\`${unit.symbol}\``)
  return symbols.length < 2 ? (symbols[0] ?? '') : `${symbols.slice(0, -1).join(', ')} or ${symbols.at(-1)}`
}

/** One key for spellings that differ only in dots, hyphens, blanks, raised digits, look-alike letters, or a plural `s`. */
function spellingKey(text: string): string {
  if (text.length > 60) return text
  const key = text
    .trim()
    .replace(/[º˚]/g, '°')
    .replace(/∆/g, 'Δ')
    .replace(/[″”]/g, (mark) => (mark === '”' ? '"' : '\u0001'))
    .normalize('NFKC')
    .replaceAll('\u0001', '″')
    .replace(/\^/g, '')
    .replace(/°\s+/g, '°')
    .replace(/\.$/, '')
    .replace(/\s*[·⋅∙•*×]\s*|[\s.‐‑-]+/g, '·')
    .replace(/·?\/·?/g, '/')
    .replace(/meter/gi, 'metre')
    .replace(/liter/gi, 'litre')
  return /(?:\p{L}·?){4,}s$/u.test(key) ? key.replace(/(\p{L}{2})s$/u, '$1') : key
}

/** Long words and a few well-known short ones may be typed in any case; `mPa` and `MPa` may not. */
function isWord(key: string): boolean {
  return /^(?:\p{L}·?){5,}$/u.test(key) || shortWords.includes(key)
}

function usOrImperial(unit: string): readonly [why: string, choices: string] {
  return ['can be US or imperial', `\`US ${unit}\` or \`imp ${unit}\``]
}

function addTo(index: Map<string, Unit[]>, key: string, unit: Unit): void {
  const there = index.get(key)
  if (!there) index.set(key, [unit])
  else if (!there.includes(unit)) there.push(unit)
}
