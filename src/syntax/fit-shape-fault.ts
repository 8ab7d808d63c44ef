import type { SchemaError } from '#generated/schema-validators'
import type { Place } from '../text/place.ts'
import type { BlockNode, MapEntry } from './block-node.ts'
import type { LocatedSchema } from './fit-block-schema.ts'

/** What is fitted. */
export interface FittedWhole {
  /** Name of its schema, `blocks/torque`. */
  readonly name: string
  /** What a person calls it: the key it stands under, or "the front matter". */
  readonly title: string
  /** The key it stands under, or null where it stands under none. */
  readonly keyAt: Place | null
}

/** One step down into a value: an entry of a map or an item of a list. */
export interface StepInto {
  /** The key, or for an item of a list its number, counted from 1. */
  readonly key: string | number
  /** What would be taken out to be rid of it. */
  readonly taken: MapEntry | BlockNode
  readonly node: BlockNode
  readonly schema: LocatedSchema | null
}

/** One thing the schema does not accept, with the way to it. */
export interface ShapeFault {
  readonly error: SchemaError & { readonly propertyName?: string }
  /** From the value itself down to the part the error is about. */
  readonly way: readonly StepInto[]
  readonly node: BlockNode
  readonly schema: LocatedSchema
  /** The names of the parts that are missing: all of them, or for `anyOf` one of them. */
  readonly missing: readonly string[]
}
