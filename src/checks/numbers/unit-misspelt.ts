import type { Fault } from '../../findings/finding.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText, type TypedText } from '../every-text.ts'
import { replacing } from '../exact-place.ts'

/** What people make up, with what the unit is called. */
const madeUp: Readonly<Record<string, string>> = {
  sec: 's',
  secs: 's',
  mins: 'min',
  hr: 'h',
  hrs: 'h',
  cc: 'cm³',
  ccm: 'cm³',
  kph: 'km/h',
  mps: 'm/s',
  kgs: 'kg',
  gms: 'g',
  gm: 'g',
  mms: 'mm',
  cms: 'cm',
  kms: 'km',
  mtr: 'm',
  mtrs: 'm',
  ltr: 'L',
  ltrs: 'L',
  degc: '°C',
  'deg c': '°C',
  degf: '°F',
  'deg f': '°F',
  kn: 'kN',
  kpa: 'kPa',
  mpa: 'MPa',
  nm: 'N·m',
}

/** Symbols that stand against their figure. An inch, a degree, a percent and a designation may. */
const close =
  /(?<![\p{L}\d.,/×x-])(\d{1,7}(?:[.,]\d{1,4})?)(mm|cm|km|kg|kN|N·m|Nm|kPa|MPa|bar|psi|rpm|°C|°F|kW|mV|mA|mL|min)(?![\p{L}\d·/²³-])/gu
const made = new RegExp(
  `(?<![\\p{L}\\d.,/-])(\\d[\\d.,]{0,8})[ \u00a0]?(${Object.keys(madeUp).join('|')})(?![\\p{L}\\d·/-])`,
  'giu',
)

/** A unit that everybody spells in his own way is one that somebody reads in his own way. */
export const unitMisspelt: Check = {
  name: 'numbers/unit-misspelt',
  severity: 'advice',
  title: 'A unit is not written as its symbol, with a blank before it.',
  rules: ['NU-02', 'NU-03'],

  *run(subject: CheckSubject): Iterable<Fault> {
    for (const said of everyText(subject.procedure, subject.written)) {
      for (const { typed, right, isSpacing } of misspeltIn(said.typed))
        yield {
          at: said.placeOf(typed),
          message: `"${typed}" is not how the unit is written.`,
          advice: `Type \`${right}\`.`,
          // Which unit was meant is certain only where its letters stay.
          ...(isSpacing ? replacing(subject, said.placeOf(typed), typed, right) : {}),
        }
    }
  },
}

interface Misspelt {
  readonly typed: string
  readonly right: string
  /** Only a blank is missing. */
  readonly isSpacing: boolean
}

const misspeltIn = oncePer(({ text }: TypedText): readonly Misspelt[] => {
  if (!/\d/.test(text)) return []
  return [
    ...[...text.matchAll(close)].map(([typed, figure = '', unit = '']) => ({
      typed,
      right: `${figure} ${unit === 'Nm' ? 'N·m' : unit}`,
      isSpacing: unit !== 'Nm',
    })),
    ...[...text.matchAll(made)].flatMap(([typed, figure = '', unit = '']) => {
      const right = madeUp[unit.toLowerCase()] ?? unit
      // The letters are right but for their size only where the size is right too.
      return unit === right || (/^(?:kN|kPa|MPa|Nm|Mpa)$/.test(unit) && unit !== 'Mpa')
        ? []
        : [{ typed, right: `${figure} ${right}`, isSpacing: false }]
    }),
  ]
})
