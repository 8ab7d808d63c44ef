/**
 * Names of the blanks of a fillable copy: what it is, then step or hold and reading ids, then what of it, parted by `|`:
 *
 *     step|wheel-off@left/let-air-out|1        the box of the first try
 *     reading|set-end-play/read|end-play|place-1|2
 *
 * A dot in the name of a form field means parent and child (ISO 32000-1, 12.7.3.2), so it is written in another form, as is
 * the sign that parts.
 */
export function fieldName(...parts: readonly string[]): string {
  return parts.map(escaped).join('|')
}

export function partsOfFieldName(name: string): readonly string[] {
  return name.split('|').map(unescaped)
}

const signs: readonly (readonly [sign: string, code: string])[] = [
  ['%', '%25'],
  ['.', '%2E'],
  ['|', '%7C'],
]

const escaped = (part: string): string => signs.reduce((written, [sign, code]) => written.replaceAll(sign, code), part)
const unescaped = (part: string): string =>
  signs.toReversed().reduce((read, [sign, code]) => read.replaceAll(code, sign), part)
