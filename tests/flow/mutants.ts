import { hasKey, stepsIn, type WrittenPiece, withoutKey, withSteps } from './rewrite-steps.ts'

/** A procedure with one thing done wrong. */
export interface Mutant {
  /** `drop a proof`, … */
  readonly kind: string
  /** The step it was done to, in its author's words. */
  readonly at: string
  readonly text: string
}

type Alter = (step: WrittenPiece) => WrittenPiece | null

const dropping =
  (...keys: readonly string[]): Alter =>
  (step) =>
    keys.some((key) => hasKey(step, key)) ? keys.reduce(withoutKey, step) : null

/** Every way in which one step of a text is spoiled. */
export function mutantsOf(text: string): readonly Mutant[] {
  const carriers = carriersIn(text)
  const kinds: readonly (readonly [string, Alter])[] = [
    ['drop a proof', dropping('proves')],
    [
      'skip a put-back',
      (step) => (hasKey(step, 'refits') || hasKey(step, 'takes-off') ? dropping('refits', 'takes-off')(step) : null),
    ],
    ['drop an else', dropping('else')],
    ['drop a clear', dropping('clear')],
    ['drop a lock', dropping('locks')],
    [
      'remove a carrier',
      (step) => (carriers.some((carrier) => step.body.includes(carrier)) ? dropping('sets', 'puts-on')(step) : null),
    ],
  ]
  const spoiled = kinds.flatMap(([kind, alter]) =>
    stepsIn(text).flatMap((step, index) => {
      const altered = alter(step)
      return altered === null ? [] : [{ kind, at: firstLine(step), text: withStep(text, index, altered) }]
    }),
  )
  return [...spoiled, ...swaps(text)]
}

/** `{ hub: slung }` among the ways a load is held: what a step says that makes it so. */
function carriersIn(text: string): readonly string[] {
  const ways = [...text.matchAll(/held-by: \[(.*)\]/g)].flatMap(([, list]) => [
    ...(list ?? '').matchAll(/\{ ([^}]+) \}/g),
  ])
  return ways.map(([, claim]) => claim ?? '').filter((claim) => !claim.includes('['))
}

function swaps(text: string): readonly Mutant[] {
  const steps = stepsIn(text)
  return steps.flatMap((step, index) => {
    const next = steps[index + 1]
    // The step that decides stays the last.
    if (next === undefined || next.list !== step.list || hasKey(next, 'decide')) return []
    const swapped = withSteps(text, (list) =>
      list.map((one) => (one.from === step.from ? next : one.from === next.from ? step : one)),
    )
    return [{ kind: 'swap two steps', at: firstLine(step), text: swapped }]
  })
}

function withStep(text: string, index: number, altered: WrittenPiece): string {
  const from = stepsIn(text)[index]?.from
  return withSteps(text, (list) => list.map((step) => (step.from === from ? altered : step)))
}

const firstLine = (step: WrittenPiece): string => (step.body.split('\n')[0] ?? '').slice(0, 60)
