import type { Fault, FaultKind } from '../findings/finding.ts'
import { nearestName } from '../text/nearest-name.ts'
import type { Place } from '../text/place.ts'
import type { BlockNode } from './block-node.ts'
import { type BlockSchema, propertySchema } from './fit-block-schema.ts'
import { exampleLine, exampleOfKey } from './fit-example.ts'
import type { ShapeFault } from './fit-shape.ts'
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
export function faultOf(shape: ShapeFault, title: string): Worded {
  const { error } = shape
  switch (error.keyword) {
    case 'additionalProperties':
      return unknown(shape, title, String(error.params.additionalProperty))
    case 'required':
      return missing(shape, title, [String(error.params.missingProperty)])
    case 'dependentRequired':
      return missing(shape, title, [String(error.params.missingProperty)])
    case 'anyOf':
      return missing(
        shape,
        title,
        (shape.schema.schema.anyOf ?? []).flatMap(({ required }) => required),
      )
    case 'enum':
      return noChoice(shape, title)
    case 'uniqueItems':
      return duplicate(shape, title)
    case 'not':
    case 'pattern':
      return error.propertyName === undefined ? unreadable(shape, title) : badName(shape, error.propertyName)
    default:
      return otherShape(shape, title)
  }
}

function unknown(shape: ShapeFault, title: string, name: string): Worded {
  const known = Object.keys(shape.schema.schema.properties ?? {})
  const near = nearestName(name, known)
  return {
    kind: unknownEntry,
    fault: {
      at: keyPlace(shape.node, name),
      message: `\`${name}\` is not known under ${nameOf(shape, title)}.`,
      advice: near !== null ? `Did you mean \`${near}\`?` : `There can stand: ${known.join(', ')}.`,
    },
  }
}

function missing(shape: ShapeFault, title: string, names: readonly string[]): Worded {
  const [first = ''] = names
  const single = names.length === 1 ? propertySchema(shape.schema, first)?.schema : undefined
  const listed = names.map((name) => `\`${name}\``)
  return {
    kind: missingEntry,
    fault: {
      at: placeOfPart(shape),
      message:
        names.length === 1
          ? `${nameOf(shape, title)} has no \`${first}\`.`
          : `${nameOf(shape, title)} needs one of ${listed.slice(0, -1).join(', ')} or ${listed.at(-1)}.`,
      advice:
        names.length === 1
          ? `Add \`${first}:\`${single?.wants === undefined ? '' : ` and ${single.wants}`}. ${single?.description ?? ''}`.trim()
          : `It wants ${shape.schema.schema.wants ?? listed.join(' or ')}.`,
    },
  }
}

function noChoice(shape: ShapeFault, title: string): Worded {
  const text = textOf(shape.node)
  const choices = shape.schema.schema.enum ?? []
  const near = nearestName(text, choices)
  return {
    kind: unknownChoice,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, title)} cannot be \`${text}\`.`,
      advice:
        near !== null
          ? `Did you mean \`${near}\`? It can be ${alternatives(choices)}.`
          : `It can be ${alternatives(choices)}.`,
    },
  }
}

function duplicate(shape: ShapeFault, title: string): Worded {
  const items = shape.node.kind === 'list' ? shape.node.items : []
  const indexes = [Number(shape.error.params.i), Number(shape.error.params.j)].sort((a, b) => a - b)
  const [first, second] = indexes.map((index) => items[index])
  const text = second === undefined ? '' : textOf(second)
  return {
    kind: duplicateItem,
    fault: {
      at: second?.at ?? shape.node.at,
      message: `${nameOf(shape, title)} names \`${text}\` twice.`,
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

function unreadable(shape: ShapeFault, title: string): Worded {
  const { schema } = shape.schema
  return {
    kind: unreadableValue,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, title)} cannot be \`${textOf(shape.node)}\`.`,
      advice: `It wants ${schema.wants ?? 'something else'}.`,
    },
  }
}

function otherShape(shape: ShapeFault, title: string): Worded {
  const { schema } = shape.schema
  const wants = schema.wants ?? usualWants(schema)
  return {
    kind: wrongShape,
    fault: {
      at: shape.node.at,
      message: `${nameOf(shape, title)} wants ${wants}; here stands ${description(shape.node)}.`,
      advice: adviceFor(shape, title, wants),
    },
  }
}

function adviceFor(shape: ShapeFault, title: string, wants: string): string {
  const examples = shape.schema.schema.examples ?? []
  const example = examples.at(-1)
  if (shape.way.length === 0 && example !== undefined) return `Type for example \`${exampleOfKey(title, example)}\`.`
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

/** "`load` of `hub` under `lift`": the nearest names of the way, innermost first. */
function nameOf({ way }: ShapeFault, title: string): string {
  const keys = way.flatMap(({ key }) => key ?? [])
  const [inner, outer] = [keys.at(-1), keys.at(-2)]
  if (inner === undefined) return `\`${title}\``
  if (outer === undefined) return `\`${inner}\` under \`${title}\``
  return `\`${inner}\` of \`${outer}\` under \`${title}\``
}

function keyPlace(node: BlockNode, key: string): Place {
  const entry = node.kind === 'map' ? node.entries.find((candidate) => candidate.key === key) : undefined
  return entry?.keyAt ?? node.at
}

/** What a missing part is missing from: its key where it has one, which is shorter to look at than all of its value. */
function placeOfPart({ way, node }: ShapeFault): Place {
  const last = way.at(-1)
  if (last !== undefined && 'keyAt' in last.taken && node.kind === 'map') return last.taken.keyAt
  return node.at
}

const textOf = (node: BlockNode): string => (node.kind === 'scalar' ? node.text : '')

function alternatives(choices: readonly string[]): string {
  if (choices.length < 2) return `\`${choices[0] ?? ''}\``
  return `${choices
    .slice(0, -1)
    .map((choice) => `\`${choice}\``)
    .join(', ')} or \`${choices.at(-1)}\``
}
