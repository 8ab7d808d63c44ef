import { unitInText } from '../../quantities/unit-in-text.ts'
import { units } from '../../quantities/unit-table.ts'
import { kindInWords } from '../../quantities/units.ts'
import type { Offer } from './suggestion.ts'

/** Which kinds of quantity a key is about; the others follow behind. */
const kindsOfKey: Readonly<Record<string, readonly string[]>> = {
  torque: ['torque', 'angle'],
  takes: ['time'],
  wait: ['time'],
  lapses: ['time'],
  every: ['time'],
  lift: ['mass', 'angle', 'length'],
  support: ['mass'],
  handle: ['mass', 'length'],
  extension: ['length'],
  'extension-angle': ['angle'],
  'wrench-length': ['length'],
  'then-angle': ['angle'],
  'angle-sum': ['angle'],
  distance: ['length'],
  load: ['mass'],
  quantity: ['volume', 'mass', 'length'],
}

/** What the shop writes most, so that it stands before the rest of its kind. */
const usual = [
  'N·m',
  'lbf·ft',
  'mm',
  'in',
  'm',
  'min',
  's',
  'h',
  'kg',
  'lb',
  'kPa',
  'MPa',
  'bar',
  'psi',
  '°C',
  '°F',
  '°',
  'L',
  '%',
]

/** Units that can stand here, the likely ones first. */
export function offerUnits(path: readonly string[]): readonly Offer[] {
  const wanted = [...path].reverse().flatMap((key) => kindsOfKey[key] ?? [])
  const rank = (kind: string): number => {
    const at = wanted.indexOf(kind)
    return at < 0 ? wanted.length : at
  }
  const order = (symbol: string): number => {
    const at = usual.indexOf(symbol)
    return at < 0 ? usual.length : at
  }
  return units
    .filter(({ symbol }) => symbol !== '')
    .map((unit, index) => ({ unit, index }))
    .sort(
      (a, b) =>
        rank(a.unit.kind) - rank(b.unit.kind) || order(a.unit.symbol) - order(b.unit.symbol) || a.index - b.index,
    )
    .map(({ unit: { symbol, spellings, kind } }) => ({
      label: symbol,
      kind: 'unit',
      detail: kindInWords(kind),
      documentation: spellings.length > 1 ? `Also typed ${spellings.slice(1).join(', ')}.` : '',
    }))
}

/** Where the unit behind the last figure of a value begins, while nothing but a unit can stand there; else null. */
export function startOfUnit(typed: string): number | null {
  const match = /(?:^|[\s±+\-−(/])[\d½⅓⅔¼¾⅛⅜⅝⅞][\d.,/½⅓⅔¼¾⅛⅜⅝⅞-]*[ \u00a0]([^\s\d,()]*)$/u.exec(typed)
  if (match === null) return null
  const letters = match[1] ?? ''
  return unitInText(letters, 0, false)?.to === letters.length ? null : typed.length - letters.length
}
