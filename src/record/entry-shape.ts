import { meanings, photoTypes, verdicts } from './entry.ts'

/** What one field of an entry must be; told as words where it is not. */
type Fit = (value: unknown) => boolean

const longest = 20_000

const text: Fit = (value) => typeof value === 'string' && value.length <= longest
const nullOr =
  (fits: Fit): Fit =>
  (value) =>
    value === null || fits(value)
const listOf =
  (fits: Fit): Fit =>
  (value) =>
    Array.isArray(value) && value.length <= longest && value.every(fits)
const oneOf =
  (...words: readonly string[]): Fit =>
  (value) =>
    words.some((word) => word === value)
const whole: Fit = (value) => typeof value === 'number' && Number.isSafeInteger(value) && value >= 0
const yesNo: Fit = (value) => typeof value === 'boolean'
const pair: Fit = (value) => Array.isArray(value) && value.length === 2 && value.every(text)
const digest: Fit = (value) => typeof value === 'string' && /^[0-9a-f]{64}$/.test(value)
const id: Fit = (value) => typeof value === 'string' && /^[0-9a-f]{32}$/.test(value)
/** ISO 8601, or what paper says: a date alone, or nothing. */
const time: Fit = (value) =>
  typeof value === 'string' && /^(?:\d{4}-\d\d-\d\d(?:T\d\d:\d\d(?::\d\d)?(?:Z|[+-]\d\d:\d\d)?)?)?$/.test(value)

function fields(shape: { readonly [name: string]: Fit }): Fit {
  return (value) => {
    if (typeof value !== 'object' || value === null || Array.isArray(value)) return false
    const names = Object.keys(value)
    const wanted = Object.keys(shape)
    return (
      names.length === wanted.length &&
      wanted.every((name) => Object.hasOwn(value, name) && shape[name]?.((value as Record<string, unknown>)[name]))
    )
  }
}

const person = { role: text, name: text, initials: text }
const move = fields({ clears: listOf(text), passesOver: listOf(text), opens: nullOr(text) })
const correction = nullOr(fields({ was: text, because: text }))

const shapes: { readonly [kind: string]: { readonly [name: string]: Fit } } = {
  begin: { run: text },
  equipment: { text },
  person: { person: fields(person) },
  variant: { name: text, value: text },
  tick: { item: text },
  untick: { item: text, because: text },
  reading: {
    reading: text,
    position: nullOr(text),
    typed: text,
    verdict: oneOf(...verdicts),
    judgedAs: text,
    limit: text,
    correction,
  },
  identity: { for: text, part: text, text, correction },
  sign: { hold: text, meaning: oneOf(...meanings) },
  waive: { hold: text },
  decide: { step: text, branch: whole, says: text, move },
  undecide: { step: text, because: text },
  again: { step: text, attempt: whole, move },
  go: { step: text, move },
  until: { phase: text, met: yesNo, attempt: whole, move },
  skip: { part: text },
  unskip: { part: text },
  wait: { wait: text },
  deviation: { step: nullOr(text), wait: nullOr(text), text, because: text },
  note: { step: text, text },
  photo: { step: text, photo: digest, mediaType: oneOf(...photoTypes), bytes: whole },
  handover: {
    where: text,
    to: fields(person),
    states: listOf(pair),
    open: listOf(text),
    locks: listOf(fields({ lock: text, of: text })),
    withdrawn: listOf(text),
    text,
    move,
  },
  'prove-again': { withdrawn: listOf(text), move },
  stop: { item: text, because: text },
  end: { how: oneOf('finished', 'stopped'), text },
}

const kinds = new Map(
  Object.entries(shapes).map(([kind, shape]) => [
    kind,
    fields({ id, after: listOf(id), at: time, by: listOf(fields(person)), kind: oneOf(kind), ...shape }),
  ]),
)

/** Whether a value is an entry, and nothing besides. The same as `schema/record.schema.json` says. */
export function isEntry(value: unknown): boolean {
  const kind = typeof value === 'object' && value !== null && 'kind' in value ? value.kind : null
  return typeof kind === 'string' && kinds.get(kind)?.(value) === true
}
