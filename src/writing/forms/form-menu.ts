import { type BlockPlace, blockKeys } from '../../syntax/fit-block-schema.ts'
import type { OpenText } from '../open-text.ts'
import { placesAround } from './form-place.ts'

export interface MenuItem {
  readonly key: string
  readonly place: BlockPlace
  readonly title: string
  readonly about: string
  /** It stands there already: picking it opens what stands there, or adds one more. */
  readonly isThere: boolean
}

export interface MenuGroup {
  readonly title: string
  readonly items: readonly MenuItem[]
}

export interface Menu {
  /** What the cursor stands in, the nearest first: `step “Press start”`. */
  readonly places: readonly { readonly place: BlockPlace; readonly title: string }[]
  readonly groups: readonly MenuGroup[]
}

/** What belongs together at the bench, in the order in which it is thought of. */
const groups: readonly (readonly [title: string, ...keys: string[]])[] = [
  [
    'Do and read',
    'torque',
    'measure',
    'check',
    'count',
    'set',
    'derive',
    'lift',
    'handle',
    'support',
    'align',
    'snug',
    'fits',
  ],
  ['Off and on', 'removes', 'refits', 'locks', 'unlocks', 'puts-on', 'takes-off'],
  [
    'States and places',
    'states',
    'zones',
    'sets',
    'proves',
    'needs',
    'where',
    'enters',
    'clear',
    'keep',
    'never',
    'exposed',
  ],
  ['Who signs', 'hold', 'hold-before', 'verify', 'witness', 'review', 'by', 'roles'],
  ['What can hurt', 'hazards', 'ppe', 'permit', 'hot-work', 'pressure', 'emergency', 'prohibit', 'rules'],
  ['What follows', 'else', 'decide', 'redo', 'repeat', 'when', 'only', 'spoils', 'together'],
  ['What is needed', 'tools', 'gear', 'parts', 'consumables', 'uses', 'machine', 'tables', 'chart'],
  ['Time', 'wait', 'takes', 'ramp', 'wear'],
  ['Putting together', 'include', 'reverse', 'undo', 'extra', 'before', 'after', 'clip', 'accept'],
]

/** Everything that can be put in at an offset, each at the nearest place where it may stand. */
export function formMenu(open: OpenText, offset: number): Menu {
  const places = placesAround(open, offset)
  const item = (key: string): readonly MenuItem[] => {
    const schema = blockKeys.get(key)
    const place = places.find(({ place }) => schema?.places?.includes(place))
    if (schema === undefined || place === undefined) return []
    const about = (schema.description ?? '').split(/(?<=[.!?])\s/)[0] ?? ''
    const isThere = place.block?.map.entries.some((entry) => entry.key === key) ?? false
    return [{ key, place: place.place, title: schema.title ?? key, about, isThere }]
  }
  const front: MenuItem = {
    key: 'front-matter',
    place: 'front-matter',
    title: 'Heading of the sheet',
    about: 'Number, title, revision, status, date and who approved it.',
    isThere: true,
  }
  const listed = new Set(groups.flatMap(([, ...keys]) => keys))
  const others = [...blockKeys.keys()].filter((key) => !listed.has(key))
  return {
    places: places.map(({ place, title }) => ({ place, title })),
    groups: [
      ...groups.map(([title, ...keys]) => ({ title, items: keys.flatMap(item) })),
      {
        title: 'The whole',
        items: [
          ...(places.some(({ block, place }) => place === 'front-matter' && block) ? [front] : []),
          ...others.flatMap(item),
        ],
      },
    ].filter(({ items }) => items.length > 0),
  }
}
