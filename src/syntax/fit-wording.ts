import type { Fault, FaultKind } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { Place } from '../text/place.ts'
import type { BlockNode } from './block-node.ts'
import { type BlockSchema, propertySchema } from './fit-block-schema.ts'
import { exampleLine, exampleOfKey } from './fit-example.ts'
import type { FittedWhole, ShapeFault } from './fit-shape-fault.ts'
import {
  duplicateItem,
  missingEntry,
  reservedName,
  unfitName,
  unknownChoice,
  unknownEntry,
  unreadableValue,
  wrongShape,
} from './schema-faults.ts'

interface Worded {
  readonly kind: FaultKind
  readonly fault: Fault
}

/** A finding in the words of the shop for something that a schema does not accept. */
export function faultOf(shape: ShapeFault, whole: FittedWhole): Worded {
  const { error } = shape
  switch (error.keyword) {
    case 'additionalProperties':
      return unknown(shape, whole, String(error.params.additionalProperty))
    case 'required':
    case 'dependentRequired':
      return missing(shape, whole)
    case 'anyOf':
      return missingOneOf(shape, whole)
    case 'enum':
      return noChoice(shape, whole)
    case 'uniqueItems':
      return duplicate(shape, whole)
    case 'not':
    case 'pattern':
      return error.propertyName === undefined ? unreadable(shape, whole) : badName(shape, error.propertyName)
    default:
      return otherShape(shape, whole)
  }
}

function unknown(shape: ShapeFault, whole: FittedWhole, name: string): Worded {
  const known = Object.keys(shape.schema.schema.properties ?? {})
  const near = nearestName(name, known)
  return {
    kind: unknownEntry,
    fault: {
      at: keyPlace(shape.node, name),
      message: `\`${name}\` is not known in ${nameOf(shape, whole).replace(/^[TI]/, (letter) => letter.toLowerCase())}.`,
      advice: near !== null ? `Did you mean \`${near}\`?` : `There can stand: ${known.join(', ')}.`,
    },
  }
}

function missing(shape: ShapeFault, whole: FittedWhole): Worded {
  const [first = ''] = shape.missing
  const wanted = propertySchema(shape.schema, first)?.schema
  const only = shape.missing.length === 1
  return {
    kind: missingEntry,
    fault: {
      at: placeOfPart(shape, whole),
      message: `${nameOf(shape, whole)} has no ${alternatives(shape.missing)}.`,
      advice: only
        ? `Add \`${first}:\` and ${wanted?.wants ?? 'its value'}. ${wanted?.description ?? ''}`.trim()
        : `Add ${joined(
            shape.missing.map((name) => `\`${name}:\``),
            'and',
          )}.`,
    },
  }
}

function missingOneOf(shape: ShapeFault, whole: FittedWhole): Worded {
  return {
    kind: missingEntry,
    fault: {
      at: placeOfPart(shape, whole),
      message: `${nameOf(shape, whole)} needs one of ${alternatives(shape.missing)}.`,
      advice: `It wants ${shape.schema.schema.wants ?? alternatives(shape.missing)}.`,
    },
  }
}

function noChoice(shape: ShapeFault, whole: FittedWhole): Worded {
  const text = textOf(shape.node)
  const choices = shape.schema.schema.enum ?? []
  const near = nearestName(text, choices)
  return {
    kind: unknownChoice,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, whole)} cannot be \`${text}\`.`,
      advice:
        near !== null
          ? `Did you mean \`${near}\`? It can be ${alternatives(choices)}.`
          : `It can be ${alternatives(choices)}.`,
    },
  }
}

function duplicate(shape: ShapeFault, whole: FittedWhole): Worded {
  const items = shape.node.kind === 'list' ? shape.node.items : []
  const indexes = [Number(shape.error.params.i), Number(shape.error.params.j)].sort((a, b) => a - b)
  const [first, second] = indexes.map((index) => items[index])
  const text = second === undefined ? '' : textOf(second)
  return {
    kind: duplicateItem,
    fault: {
      at: second?.at ?? shape.node.at,
      message: `${nameOf(shape, whole)} names \`${text}\` twice.`,
      advice: 'Take one of the two out.',
      ...(first === undefined ? {} : { related: [{ at: first.at, message: `\`${text}\` stands here already.` }] }),
    },
  }
}

function badName(shape: ShapeFault, name: string): Worded {
  const at = keyPlace(shape.node, name)
  if (shape.error.keyword === 'not')
    return {
      kind: reservedName,
      fault: {
        at,
        message: `\`${name}\` cannot be a name: formulas and the language use this word themselves.`,
        advice: `Add a word that tells it apart, like \`${name}-1\`, and use that name everywhere.`,
      },
    }
  const tidied = name
    .trim()
    .replace(/[^\p{L}\p{N}_]+/gu, '-')
    .replace(/^-+|-+$/g, '')
  return {
    kind: unfitName,
    fault: {
      at,
      message: `\`${name}\` cannot be a name here: names have letters, figures and hyphens only.`,
      advice: tidied === '' ? 'Type a name like `take-up`.' : `Type \`${tidied}\`.`,
    },
  }
}

function unreadable(shape: ShapeFault, whole: FittedWhole): Worded {
  const { schema } = shape.schema
  return {
    kind: unreadableValue,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, whole)} cannot be \`${textOf(shape.node)}\`.`,
      advice: `It wants ${schema.wants ?? 'something else'}.`,
    },
  }
}

function otherShape(shape: ShapeFault, whole: FittedWhole): Worded {
  const { schema } = shape.schema
  const wants = schema.wants ?? usualWants(schema)
  return {
    kind: wrongShape,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, whole)} wants ${wants}; here stands ${description(shape.node)}.`,
      advice: adviceFor(shape, whole, wants),
    },
  }
}

function adviceFor(shape: ShapeFault, whole: FittedWhole, wants: string): string {
  const examples = shape.schema.schema.examples ?? []
  const example = examples.at(-1)
  if (shape.way.length === 0 && example !== undefined)
    return `Type for example \`${exampleOfKey(whole.title, example)}\`.`
  if (example !== undefined) return `Type for example \`${exampleLine(example)}\`.`
  return `Type ${wants}.`
}

function usualWants(schema: BlockSchema): string {
  if (schema.type === 'array') return 'a list'
  if (schema.type === 'object')
    return `a map, like { ${Object.keys(schema.properties ?? { name: '' })[0] ?? 'name'}: … }`
  return 'a text'
}

/** What stands there, as a person would say it. */
function description(node: BlockNode): string {
  if (node.kind === 'scalar') return `only \`${node.text}\``
  if (node.kind === 'list') return node.items.length === 0 ? 'an empty list' : `a list of ${node.items.length}`
  const [first] = node.entries
  return first === undefined ? 'nothing' : `a map that begins with \`${first.key}:\``
}

/** "`load` of `hub` under `lift`", "Item 2 of `branches` under `decide`". */
function nameOf({ way }: ShapeFault, whole: FittedWhole): string {
  const { title } = whole
  const quoted = title.includes(' ') || title.includes('/') ? title : `\`${title}\``
  const last = way.at(-1)?.key
  const keys = way.flatMap(({ key }) => (typeof key === 'string' ? key : []))
  const [inner, outer] = [keys.at(-1), keys.at(-2)]
  const named =
    inner === undefined
      ? quoted
      : outer === undefined
        ? `\`${inner}\` under ${quoted}`
        : `\`${inner}\` of \`${outer}\` under ${quoted}`
  return typeof last === 'number' ? `Item ${last} of ${named}` : named.replace(/^t/, 'T')
}

function keyPlace(node: BlockNode, key: string): Place {
  const entry = node.kind === 'map' ? node.entries.find((candidate) => candidate.key === key) : undefined
  return entry?.keyAt ?? node.at
}

/** What a missing part is missing from: its key where it has one, which is shorter to look at than all of its value. */
function placeOfPart({ way, node }: ShapeFault, { keyAt }: FittedWhole): Place {
  const last = way.at(-1)
  if (node.kind !== 'map') return node.at
  if (last !== undefined && 'keyAt' in last.taken) return last.taken.keyAt
  if (way.length > 0) return node.at
  return keyAt ?? node.entries[0]?.keyAt ?? node.at
}

const textOf = (node: BlockNode): string => (node.kind === 'scalar' ? node.text : '')

function alternatives(names: readonly string[]): string {
  return joined(
    names.map((name) => `\`${name}\``),
    'or',
  )
}

function joined(words: readonly string[], word: 'and' | 'or'): string {
  if (words.length < 2) return words.join('')
  return `${words.slice(0, -1).join(', ')} ${word} ${words.at(-1)}`
}
