import { judgeValue, limitOfPrinted } from '../../quantities/judge-reading.ts'
import { hyphenRange } from '../../quantities/limit-words.ts'
import { parseLimit } from '../../quantities/parse-limit.ts'
import { limitTextIn } from '../../quantities/print-limit.ts'
import type { PrintedLimit } from '../../quantities/quantity-types.ts'
import { fromExactText, zero } from '../../quantities/rational.ts'
import { unitBySymbol } from '../../quantities/units.ts'
import { type BlockNode, type MapEntry, type MapNode, type ScalarNode, valueAt } from '../../syntax/block-node.ts'
import type { NamedText } from '../entries.ts'
import type { Consequence } from '../outcomes.ts'
import type { Reading, ReadingUncertainty, Torque } from '../readings.ts'
import type { Only } from '../variants.ts'
import { inWords } from './entries.ts'
import { withSuffix } from './lay-out-phases.ts'
import { entriesOf, textAt, textsAt } from './read-node.ts'
import { type LimitOrWork, limitOfFormula, limitOfShare, limitsOfTable } from './resolve-bench-limit.ts'
import type { Scope } from './resolve-claims.ts'
import { consequencesFrom } from './resolve-consequence.ts'
import {
  type LimitContext,
  MISSING_VALUE,
  reportUncertainty,
  resolveLimit,
  resolveUncertainty,
} from './resolve-limit.ts'
import { torqueFastener } from './torque-fastener.ts'
import { passesOfTorque } from './torque-passes.ts'

const READING_KEYS = ['measure', 'check', 'set', 'derive', 'count'] as const

const UNDERSTOOD_IN_READING = new Set(
  'limit limits unit at with as expression asks what pass fail given only else'.split(' '),
)
/** Where the limit says already what it is taken of. */
const UNDERSTOOD_WITH_OF = new Set([...UNDERSTOOD_IN_READING, 'of'])

export interface ResolvedReadings {
  readonly readings: readonly Reading[]
  readonly consequences: readonly Consequence[]
}

/** Everything that a step reads, judges, adjusts, works out or counts. */
export function readingsFrom(
  block: MapNode | null,
  suffix: string,
  scope: Scope,
  context: LimitContext,
): ResolvedReadings {
  const readings: Reading[] = []
  const consequences: Consequence[] = []
  for (const kind of READING_KEYS) {
    for (const entry of entriesOf(valueAt(block ?? undefined, kind))) {
      for (const found of limitsOf(entry.value, context))
        readings.push({ ...readingFrom(kind, entry, suffix, found, context), limit: found.limit, only: found.only })
      consequences.push(...consequencesFrom(valueAt(entry.value, 'else'), entry.key, scope))
    }
  }
  return { readings, consequences }
}

function readingFrom(
  kind: Reading['kind'],
  entry: MapEntry,
  suffix: string,
  { limit, worked, facts }: LimitCase,
  context: LimitContext,
): Omit<Reading, 'limit' | 'only'> {
  const node = entry.value
  const instance = textAt(node, 'as')
  const tools = textsAt(node, 'with')
  const typedUncertainty = scalarAt(node, 'uncertainty')
  const uncertainty = resolveUncertainty(typedUncertainty?.text ?? null, tools, context)
  // Left out in silence, it would let readings pass that nobody meant to pass.
  if (typedUncertainty && uncertainty === null) reportUncertainty(typedUncertainty, context)
  const understood =
    worked?.table === null || limit?.typed.includes(' of ') ? UNDERSTOOD_WITH_OF : UNDERSTOOD_IN_READING
  return {
    id: withSuffix(entry.key, suffix),
    name: entry.key,
    kind,
    asks: textAt(node, 'asks') ?? textAt(node, 'what'),
    unit: textAt(node, 'unit') ?? (worked?.unit || null),
    positions: textsAt(node, 'at'),
    instrument: tools.join(', ') || null,
    instance: instance === 'found' ? 'as-found' : instance === 'left' ? 'as-left' : null,
    expression: textAt(node, 'expression'),
    passes: textsAt(node, 'pass'),
    fails: textsAt(node, 'fail'),
    given: textAt(node, 'given'),
    ...(worked === null ? {} : { workedLimit: worked }),
    ...(uncertainty === null || (limit === null && worked === null) ? {} : { uncertainty }),
    facts: [...facts, ...guardFact(limit, uncertainty), ...factsOf(node, understood)],
    at: entry.keyAt,
  }
}

/** What is accepted once the uncertainty is taken off, for those who judge on paper. */
function guardFact(limit: PrintedLimit | null, uncertainty: ReadingUncertainty | null): readonly NamedText[] {
  const value = uncertainty && fromExactText(uncertainty.exact)
  const typed = limit && limitOfPrinted(limit)
  if (!limit || !uncertainty || !value || !typed || uncertainty.unit === '%') return []
  const { guard } = judgeValue(typed, zero, { uncertainty: { value, unit: uncertainty.unit } })
  if (guard === null) return []
  const narrowed = limitOfPrinted({ ...limit, lower: guard.lower, upper: guard.upper })
  const unit = unitBySymbol(limit.unit)
  const text = guard.acceptsNothing || !narrowed || !unit ? null : limitTextIn(narrowed, unit)
  return [{ name: 'accept', text: `${text ?? 'nothing'}, with the uncertainty of ${uncertainty.typed} taken off` }]
}

interface LimitCase extends LimitOrWork {
  readonly only: Only | null
  readonly facts: readonly NamedText[]
}

/** One case, or one a variant value where `limits` or a table gives several. */
function limitsOf(node: BlockNode, context: LimitContext): readonly LimitCase[] {
  const byVariant = entriesOf(valueAt(node, 'limits'))
  if (byVariant.length > 0)
    return byVariant.map((entry) => ({
      ...limitCase(entry.value.kind === 'scalar' ? entry.value : null, node, context),
      only: { variant: '', values: [entry.key] },
    }))
  const only = onlyFrom(valueAt(node, 'only'))
  const from = valueAt(node, 'from')
  const unit = textAt(node, 'unit')
  const ofTable = from === undefined ? [] : limitsOfTable(from, unit, textsAt(node, 'with'), context)
  if (ofTable.length > 0) return ofTable.map((found) => ({ ...found, only: found.only ?? only, facts: [] }))
  return [{ ...limitCase(scalarAt(node, 'limit'), node, context), only }]
}

/** A limit that the bench works out is a fact to print beside the blank. */
function limitCase(typed: ScalarNode | null, node: BlockNode, context: LimitContext): Omit<LimitCase, 'only'> {
  if (typed === null) return { limit: null, worked: null, facts: [] }
  if (typed.text.includes(MISSING_VALUE))
    return { limit: null, worked: null, facts: [{ name: 'limit', text: typed.text }] }
  const of = scalarAt(node, 'of')
  const unit = textAt(node, 'unit')
  const tools = textsAt(node, 'with')
  const share = of && limitOfShare(typed, of, unit, tools, context)
  const found = share ?? (namesReading(typed.text, context) ? limitOfFormula(typed, unit, context) : null)
  if (found) return { ...found, facts: found.worked ? [{ name: 'limit', text: found.worked.typed }] : [] }
  return { limit: resolveLimit(typed, context, tools), worked: null, facts: [] }
}

/** `max first(l1) + 0.1 mm` names `l1`; what reads as a limit names nothing. */
function namesReading(text: string, { readingUnits }: LimitContext): boolean {
  // `10-12 mm` is a limit with a hyphen, and its reader says what to type; a unit may be spelt like the name of a reading.
  if (parseLimit(text).ok || (hyphenRange(text, { from: 0, to: text.length }) && !text.includes('*'))) return false
  const words = text.match(/[\p{L}][\p{L}\p{N}_-]*/gu) ?? []
  return words.some((word) => readingUnits.has(word)) || /\b(?:first|previous)\s*\(/.test(text)
}

const UNDERSTOOD_IN_TORQUE = new Set(
  'limit limits fastener lubrication finish pattern order passes with only or'.split(' '),
)

/** The torques of a step; where the author gave alternatives (`or`), each is one, and exactly one is done. */
export function torquesFrom(block: MapNode | null, suffix: string, context: LimitContext): readonly Torque[] {
  return entriesOf(valueAt(block ?? undefined, 'torque')).flatMap((entry) => {
    const alternatives = valueAt(entry.value, 'or')
    const others = alternatives?.kind === 'list' ? alternatives.items : []
    // `{ or: [a, b] }` names only the ways; one with a limit of its own is a way too.
    const own = valueAt(entry.value, 'limit') ?? valueAt(entry.value, 'limits') ?? valueAt(entry.value, 'from')
    const nodes = own === undefined && others.length > 0 ? others : [entry.value, ...others]
    return nodes.flatMap((node, index) => torqueFrom(entry, node, index, nodes.length, suffix, context))
  })
}

function torqueFrom(
  entry: MapEntry,
  node: BlockNode,
  index: number,
  count: number,
  suffix: string,
  context: LimitContext,
): readonly Torque[] {
  const name = index === 0 ? entry.key : `${entry.key}-${index + 1}`
  const choice = count > 1 ? [{ name: 'choose one', text: `way ${index + 1} of ${count}` }] : []
  const tightened = torqueFastener(node, context)
  return limitsOf(node, context).map(({ limit, only, facts }) => ({
    id: withSuffix(name, suffix),
    name: entry.key,
    limit: limit ?? unreadLimit(textAt(node, 'limit') ?? ''),
    fastener: tightened.fastener,
    lubrication: tightened.lubrication,
    pattern: [textAt(node, 'pattern'), textsAt(node, 'order').join(' ')].filter(Boolean).join(': ') || null,
    passes: passesOfTorque(limit, textsAt(node, 'passes'), context.systems),
    tool: textsAt(node, 'with').join(', ') || null,
    only,
    facts: [...choice, ...facts, ...tightened.facts, ...factsOf(node, UNDERSTOOD_IN_TORQUE)],
    at: entry.keyAt,
  }))
}

/** What cannot be read is still printed as it was typed; the finding about it blocks the output. */
function unreadLimit(typed: string): PrintedLimit {
  return {
    typed,
    text: typed,
    kind: '',
    form: 'nominal',
    lower: null,
    upper: null,
    aim: null,
    unit: '',
    ucum: '',
    inUnits: [],
    pair: null,
  }
}

/** The rest of a long form, for print: nothing an author wrote is dropped. */
function factsOf(node: BlockNode, understood: ReadonlySet<string>): readonly NamedText[] {
  return entriesOf(node)
    .filter((entry) => !understood.has(entry.key))
    .map((entry) => ({ name: entry.key.replaceAll('-', ' '), text: inWords(entry.value) }))
}

function scalarAt(node: BlockNode, key: string): ScalarNode | null {
  const value = valueAt(node, key)
  return value?.kind === 'scalar' ? value : null
}

/** `{ values: [m22], variant?: wheel-stud }`; a variant that is not named is found when linked. */
export function onlyFrom(node: BlockNode | undefined): Only | null {
  const values = textsAt(node, 'values')
  return values.length > 0 ? { variant: textAt(node, 'variant') ?? '', values } : null
}
