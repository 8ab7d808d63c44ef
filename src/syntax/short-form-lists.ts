import type { BlockNode, ListNode, MapEntry, MapNode, ScalarNode } from './block-node.ts'
import type { BlockSchema, Split } from './fit-block-schema.ts'
import { aroundFirst, atBlanks, atCommas, impliedScalar, type Piece, scalarOf, trimmed } from './short-form-pieces.ts'

/** The items that the text of a list stands for: `left right`, `50 100 %`, `a, b`, or the one text. */
export function textItems(node: ScalarNode, list: BlockSchema, items: BlockSchema): readonly BlockNode[] {
  const whole = trimmed({ text: node.text, from: 0 })
  const { between } = list.short ?? {}
  if (between !== undefined) {
    const pair = aroundFirst(whole, between)
    if (pair !== null) return pair.map((piece) => scalarOf(node, piece))
  }
  const split = list.split ?? usualSplit(list, items)
  switch (split) {
    case 'never':
      return [node]
    case 'commas':
      return atCommas(whole).map((piece) => scalarOf(node, piece))
    case 'blanks':
      return withoutAnd(atBlanks(whole), items).map((piece) => scalarOf(node, piece))
    case 'amounts':
      return sharingTheUnit(node, whole)
    case 'passes':
      return passes(node, whole)
  }
}

/** Names of the shop have no blanks in them, sentences and answers have. */
const namesWithoutBlanks = new Set([
  'role',
  'zone',
  'state-value',
  'position',
  'resource',
  'variant-value',
  'reading',
  'label',
  'phase',
  'prover',
  'isolation-point',
])

function usualSplit(list: BlockSchema, items: BlockSchema): Split {
  if (items.holds !== undefined && namesWithoutBlanks.has(items.holds)) return 'blanks'
  // A map of names, `[hard hat, safety glasses]`; steps, `a to c`; counted things, `24 × wheel-nut`.
  if (list.short?.list === 'names' || items.holds === 'step-span' || items.short?.counted) return 'commas'
  return 'never'
}

/** `fitter and second` names two roles. */
function withoutAnd(pieces: readonly Piece[], items: BlockSchema): readonly Piece[] {
  return items.holds === 'role' ? pieces.filter((piece) => piece.text !== 'and') : pieces
}

const bareFigure = /^[-+−]?[\d.,/]+$/u

/** `30 60 100 %` is three figures that share one unit; `60° 30°` and `100 N·m 200 N·m` have their own. */
function sharingTheUnit(node: ScalarNode, whole: Piece): readonly ScalarNode[] {
  const amounts: { figure: Piece; unit: string }[] = []
  for (const piece of atBlanks(whole)) {
    const last = amounts.at(-1)
    if (last !== undefined && bareFigure.test(last.figure.text) && !/^[-+−\d.]/u.test(piece.text) && last.unit === '')
      last.unit = piece.text
    else amounts.push({ figure: piece, unit: '' })
  }
  let unit = ''
  const items: ScalarNode[] = []
  for (const amount of amounts.reverse()) {
    const bare = bareFigure.test(amount.figure.text)
    if (bare && amount.unit !== '') unit = amount.unit
    items.unshift(
      bare && unit !== ''
        ? { ...scalarOf(node, amount.figure), text: `${amount.figure.text} ${unit}`, contentStart: null }
        : scalarOf(node, amount.figure),
    )
  }
  return items
}

/** One bare number says how many rounds there are, each at the full torque. */
function passes(node: ScalarNode, whole: Piece): readonly ScalarNode[] {
  const rounds = /^[1-9]\d?$/.test(whole.text) ? Number(whole.text) : 0
  if (rounds === 0) return sharingTheUnit(node, whole)
  const { at } = scalarOf(node, whole)
  return Array.from({ length: rounds }, () => impliedScalar('100 %', at))
}

/** A table written as one map a row: the columns are the keys in the order in which they first appear. */
export function rowsOfMaps(list: ListNode): MapNode | null {
  const columns = new Map<string, ScalarNode>()
  for (const row of list.items) {
    if (row.kind !== 'map') return null
    for (const { key, keyAt } of row.entries) if (!columns.has(key)) columns.set(key, impliedScalar(key, keyAt))
  }
  const rows = list.items.map((row): ListNode => {
    const entries: readonly MapEntry[] = row.kind === 'map' ? row.entries : []
    const valueIn = (column: string) => entries.find((entry) => entry.key === column)?.value
    return {
      kind: 'list',
      at: row.at,
      items: [...columns.keys()].map((column) => valueIn(column) ?? impliedScalar('', row.at)),
    }
  })
  return {
    kind: 'map',
    at: list.at,
    entries: [
      { key: 'columns', keyAt: list.at, value: { kind: 'list', at: list.at, items: [...columns.values()] } },
      { key: 'rows', keyAt: list.at, value: { kind: 'list', at: list.at, items: rows } },
    ],
  }
}
