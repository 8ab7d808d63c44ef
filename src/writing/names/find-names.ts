import type { BlockNode } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { OpenText } from '../open-text.ts'
import type { NameMark, NameSort } from './name-mark.ts'

/** The name at an offset: the cursor may stand right behind it, too. */
export function nameAt(open: OpenText, offset: number): NameMark | null {
  const inside = open.names.find(({ at }) => at.start <= offset && offset < at.end)
  return inside ?? open.names.find(({ at }) => at.end === offset) ?? null
}

/** Where a name gets its meaning: in this text, else in `shared/`. Empty where nothing gives it one. */
export function definitionOf(open: OpenText, offset: number): readonly Place[] {
  const mark = nameAt(open, offset)
  if (mark === null) return []
  const here = sameNames(open, mark).filter(({ defines }) => defines)
  if (here.length > 0) return here.map(({ at }) => at)
  const shared = sharedPlace(open, mark)
  return shared === null ? [] : [shared]
}

/** Every place of this text where the name at an offset stands, what defines it included. */
export function referencesOf(open: OpenText, offset: number): readonly Place[] {
  const mark = nameAt(open, offset)
  return mark === null ? [] : sameNames(open, mark).map(({ at }) => at)
}

/** Every mark that means the same as this one. */
export function sameNames(open: OpenText, mark: NameMark): readonly NameMark[] {
  const sorts = sortsSharing(open, mark)
  return open.names.filter((other) => {
    if (other.name !== mark.name || !sorts.has(other.sort)) return false
    return mark.owner === null || other.owner === null || other.owner === mark.owner
  })
}

/** What `snug` names is the torque's; what comes off is a state by its name, and may be a part. */
const tiedByThings: readonly NameSort[] = ['thing', 'state', 'resource', 'torque']

function sortsSharing(open: OpenText, mark: NameMark): ReadonlySet<NameSort> {
  const ofName = open.names.filter(({ name }) => name === mark.name)
  const isTied = tiedByThings.includes(mark.sort) && ofName.some(({ sort }) => sort === 'thing')
  return new Set(isTied ? tiedByThings : [mark.sort])
}

/** Where the library says what a name means. */
export function sharedPlace(open: OpenText, mark: NameMark): Place | null {
  const { library } = open
  if (mark.sort === 'fragment') return startOf(open, `shared/fragments/${mark.name}.md`)
  if (mark.sort === 'machine') return startOf(open, `shared/machines/${mark.name}.yaml`)
  for (const items of cataloguesOf(open, mark.sort)) {
    const node = items.get(mark.name)
    if (node !== undefined) return placeOfName(open, mark.name, node.at)
  }
  return mark.sort === 'role' && library.configuration.roles.has(mark.name) ? startOf(open, 'witnessmark.yaml') : null
}

/** The catalogues of `shared/` that names of a sort may stand in. */
export function cataloguesOf(open: OpenText, sort: NameSort): readonly ReadonlyMap<string, BlockNode>[] {
  const { tools, instruments, gear, ppe, hazards, roles } = open.library.catalogues
  switch (sort) {
    case 'resource':
      return [tools, instruments, gear, ppe]
    case 'hazard':
      return [hazards]
    case 'role':
      return [roles]
    default:
      return []
  }
}

function startOf(open: OpenText, file: string): Place | null {
  return open.library.reader.readText(file).kind === 'text' ? { file, start: 0, end: 0 } : null
}

/** An entry of a catalogue is kept by its value; its key stands before it. */
function placeOfName(open: OpenText, name: string, value: Place): Place {
  const text = open.library.sources.find(({ path }) => path === value.file)?.text ?? ''
  const start = text.lastIndexOf(name, value.start)
  return start < 0 ? value : { file: value.file, start, end: start + name.length }
}
