/** A condition or formula with the signs of print: `max 1.25 * rating` → `max 1.25 × rating`. A hyphen in a name stays. */
export function signsOfPrint(formula: string): string {
  return formula
    .replaceAll(' - ', ' − ')
    .replace(/\s?\*\s?/g, ' × ')
    .replaceAll('<=', '≤')
    .replaceAll('>=', '≥')
    .trim()
}
