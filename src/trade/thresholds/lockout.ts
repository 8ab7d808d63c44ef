import { type Answer, answer, refuse } from '../answer.ts'

/** Steps of a lockout and how they are told in procedures, from the first to the last. */
const steps = [
  ['preparation', /\bprepar/],
  ['shutdown', /\bshut|\bstop\b|\bswitch(?:ed|ing)? off/],
  // Before isolation: "locks the isolator" is a device, "isolates" is not.
  ['device application', /\bdevice|\block(?!out\b)|\btag|\bappl/],
  ['isolation', /\bisolat|\bdisconnect/],
  ['stored energy', /\bstored|\bresidual|\bbleed|\bdischarg|\bdissipat|\breliev|\brelease/],
  ['verification', /\bverif|\btry\b|\btest|\bprove/],
] as const satisfies readonly (readonly [string, RegExp])[]

export type LockoutStep = (typeof steps)[number][0]

/** Orders of application by name. Where they disagree the national one is the default. */
export const lockoutOrders = {
  '29 CFR 1910.147(d)': {
    source: '29 CFR 1910.147(d)(1) to (d)(6), order of application',
    orders: [['preparation', 'shutdown', 'isolation', 'device application', 'stored energy', 'verification']],
  },
  'local: energy before locks': {
    source: 'Site procedures that let energy out before the locks go on; common practice, no published source',
    orders: [
      ['preparation', 'shutdown', 'isolation', 'device application', 'stored energy', 'verification'],
      ['preparation', 'shutdown', 'isolation', 'stored energy', 'device application', 'verification'],
    ],
  },
} as const satisfies Readonly<Record<string, { source: string; orders: readonly (readonly LockoutStep[])[] }>>

export type LockoutOrderName = keyof typeof lockoutOrders

export interface LockoutVerdict {
  readonly isValid: boolean
  /** Of each step given its number in the order (of the first way), null for a step that the order does not know, such as telling people. */
  readonly positions: readonly (number | null)[]
  readonly missing: readonly LockoutStep[]
}

/**
 * Whether steps of a lockout stand in an order and none of the six is missing. Steps that the order does not know are passed over; one
 * that comes twice must be right both times. Refused without a step.
 */
export function lockoutOrder(
  given: readonly string[],
  name: LockoutOrderName = '29 CFR 1910.147(d)',
): Answer<LockoutVerdict> {
  if (given.length === 0) return refuse('steps', 'There is no step.', 'Type the steps in their order.')
  const known = given.map(stepOf)
  const ways: readonly (readonly LockoutStep[])[] = lockoutOrders[name].orders
  const [first = []] = ways
  const present = known.filter((step) => step !== null)
  const missing = first.filter((step) => !present.includes(step))
  const isInOrder = (way: readonly LockoutStep[]): boolean => {
    const places = present.map((step) => way.indexOf(step))
    return places.every((place, index) => index === 0 || place >= (places[index - 1] ?? 0))
  }
  return answer({
    isValid: missing.length === 0 && ways.some(isInOrder),
    positions: known.map((step) => (step === null ? null : first.indexOf(step) + 1)),
    missing,
  })
}

/** Where energy can build up again, verification goes on until the work is done: 29 CFR 1910.147(d)(5)(ii). */
export function verificationGoesOn(energyCanComeBack: boolean): boolean {
  return energyCanComeBack
}

function stepOf(text: string): LockoutStep | null {
  const words = text
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
  const exact = steps.find(([step]) => step === words)
  return (exact ?? steps.find(([, seen]) => seen.test(words)))?.[0] ?? null
}
