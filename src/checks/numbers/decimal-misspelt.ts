import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText } from '../every-text.ts'
import { replacing } from '../exact-place.ts'
import { isEnglish } from '../told-instructions.ts'

const unit = '(?:mm|cm|m|km|in|ft|kg|g|t|lb|N·m|Nm|kN|N|bar|kPa|MPa|psi|°C|°F|°|%|L|mL|s|min|h|V|A|kW|W)'
const withoutZero = /(?<![\p{L}\d.,])\.(\d+)(?![\d.]*\.\d)/gu
const withComma = new RegExp(
  `(?<![\\p{L}\\d.,])(\\d{1,6}),(\\d{1,2}|\\d{4,})(?=[ \\u00a0]?${unit}(?![\\p{L}\\d]))`,
  'gu',
)

/** The point of ".5" is lost in the second copy. */
export const decimalMisspelt: Check = {
  name: 'numbers/decimal-misspelt',
  severity: 'warning',
  title: 'A decimal has no zero before its point, or a comma in the place of the point.',
  rules: ['NU-16'],

  *run(subject: CheckSubject): Iterable<Fault> {
    const { procedure, written } = subject
    const commaIsPoint = !isEnglish(procedure)
    for (const said of everyText(procedure, written)) {
      // Most texts have no such figure: this keeps them cheap.
      if (!/[.,]\d/.test(said.text)) continue
      for (const [typed, digits = ''] of said.text.matchAll(withoutZero))
        yield {
          at: said.placeOf(typed),
          message: `"${typed}" has no zero before its point. Where the point is not printed well, it is ${digits}.`,
          advice: `Type \`0.${digits}\`.`,
          ...replacing(subject, said.placeOf(typed), typed, `0.${digits}`),
        }
      if (commaIsPoint) continue
      for (const [typed, whole = '', digits = ''] of said.text.matchAll(withComma))
        yield {
          at: said.placeOf(typed),
          message: `"${typed}" has a comma where the decimal point belongs.`,
          advice: `Type \`${whole}.${digits}\`.`,
        }
    }
  },
}
