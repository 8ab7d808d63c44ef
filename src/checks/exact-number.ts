/** Compares two exact numbers of a limit, `7` or `-3/8`: below zero where the first is smaller, zero where they are equal. */
export function compareExact(a: string, b: string): number {
  const [first, second] = [fractionFrom(a), fractionFrom(b)]
  const difference = first.numerator * second.denominator - second.numerator * first.denominator
  return difference < 0n ? -1 : difference > 0n ? 1 : 0
}

function fractionFrom(exact: string): { readonly numerator: bigint; readonly denominator: bigint } {
  const [numerator, denominator] = exact.split('/')
  return { numerator: BigInt(numerator ?? '0'), denominator: BigInt(denominator ?? '1') }
}
