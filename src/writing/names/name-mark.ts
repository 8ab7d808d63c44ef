import type { Place } from '../../text/place.ts'

/** What a name names. Steps, phases and branches share their ids; so do tools, gear, parts, consumables and what people wear. */
export type NameSort =
  | 'step'
  | 'reading'
  | 'torque'
  | 'state'
  | 'value'
  | 'zone'
  | 'role'
  | 'hazard'
  | 'resource'
  | 'thing'
  | 'table'
  | 'variant'
  | 'variant-value'
  | 'permit'
  | 'watch'
  | 'machine'
  | 'machine-energy'
  | 'fragment'
  | 'finding'

/** One place where a name stands. */
export interface NameMark {
  readonly sort: NameSort
  readonly name: string
  /** Exactly the letters of the name, without marks, positions and quotes. */
  readonly at: Place
  /** It is here that the name gets its meaning. */
  readonly defines: boolean
  /** For a value: its state or variant. */
  readonly owner: string | null
  /** The key of the block it stands under: `removes`; null in running text. */
  readonly key: string | null
  /** How a name is written in running text: `Tyre fitter` for `tyre-fitter`. */
  readonly isInWords: boolean
}

/** What a sort is called in a sentence. */
export const sortInWords: Readonly<Record<NameSort, string>> = {
  step: 'step or phase',
  reading: 'reading',
  torque: 'torque',
  state: 'state',
  value: 'value of a state',
  zone: 'zone',
  role: 'role',
  hazard: 'hazard',
  resource: 'tool, part or piece of gear',
  thing: 'thing that comes off, is locked or is put on',
  table: 'table',
  variant: 'variant',
  'variant-value': 'value of a variant',
  permit: 'permit',
  watch: 'thing kept throughout',
  machine: 'machine',
  'machine-energy': 'energy of the machine',
  fragment: 'fragment',
  finding: 'finding',
}
