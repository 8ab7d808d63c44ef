import type { TextChange } from '../../findings/finding.ts'
import type { BlockNode } from '../../syntax/block-node.ts'
import { type LocatedSchema, propertySchema } from '../../syntax/fit-block-schema.ts'
import { renameEdits } from '../names/rename.ts'
import { type OpenText, openText } from '../open-text.ts'
import { withChanges } from '../with-changes.ts'
import type { FormTarget, FormValue, Written } from './form.ts'
import { type FormPlace, hasUnreadBlock } from './form-place.ts'
import { keySchema, nodeOf, placeOfTarget } from './open-form.ts'
import { addition, lineEnd, removal, valueChanges } from './value-changes.ts'
import { keyLines } from './value-text.ts'
import { isBlank, isMap, isSame, longForm, withoutBlanks } from './values.ts'

/**
 * The changes that write what a form holds into the text, as few as will do. Before they are given, the text is read
 * again with them: what would not mean exactly what the form says is refused.
 *
 * @param name for a key with one entry a name: the name typed in the form
 */
export function writeForm(open: OpenText, target: FormTarget, name: string | null, filled: FormValue): Written {
  const here = placeOfTarget(open, target)
  const key = keySchema(target)
  if (here === null || key === null) return refused('That cannot stand here.')
  if (hasUnreadBlock(open, here)) return refused(`The block of ${here.title} cannot be read yet. Put that right first.`)
  const value = withoutBlanks(filled)
  const isNamed = key.schema.keysDefine !== undefined && target.place !== 'front-matter'
  if (isNamed && (name === null || !isName(name, key)))
    return refused('It needs a name of letters, figures and hyphens, without blanks, like motor-bolts.')
  const next = isNamed ? withEntry(here, target, key, name ?? '', value) : value
  if (next === null) return refused(`There is already one called ${name} here.`)
  const changes = changesFor(open, here, target, key, name, next)
  if (changes === null)
    return refused('This part of the text is written in a way that the form cannot change. Change it in the text.')
  const written = withChanges(open.text, changes)
  const again = openText(open.file, written, open.library, open)
  const renamed = isNamed && target.name !== null && target.name !== name
  const there = placeOfTarget(again, { ...target, offset: moved(changes, target.offset) })
  const node = there && nodeOf(there, target)
  if (node === null || node === undefined || !(renamed || isSame(longForm(node, key), next)))
    return refused('This part of the text is written in a way that the form cannot change. Change it in the text.')
  return {
    kind: 'changes',
    changes: changes.map(({ at, newText }) => ({ start: at.start, end: at.end, newText })),
  }
}

/** Takes what a form is about out of the text; the key goes with its last entry. */
export function removeForm(open: OpenText, target: FormTarget): Written {
  const here = placeOfTarget(open, target)
  const entry = here?.block?.map.entries.find(({ key }) => key === target.key)
  if (!here?.block || entry === undefined) return refused('It is no longer there.')
  const inner = target.name !== null && entry.value.kind === 'map' ? entry.value : null
  const own = inner?.entries.find(({ key }) => key === target.name)
  const change =
    inner !== null && own !== undefined && inner.entries.length > 1
      ? removal(open.text, inner, own)
      : here.block.map.entries.length > 1
        ? removal(open.text, here.block.map, entry)
        : wholeBlock(open, here)
  return { kind: 'changes', changes: [{ start: change.at.start, end: change.at.end, newText: change.newText }] }
}

function wholeBlock(open: OpenText, { block, indent }: FormPlace): TextChange {
  const at = block?.at ?? { file: open.file, start: 0, end: 0 }
  const start = at.start - indent
  return { at: { ...at, start, end: Math.min(lineEnd(open.text, at.end) + 1, open.text.length) }, newText: '' }
}

const refused = (because: string): Written => ({ kind: 'refused', because })

/** Some things are named in words: `safety glasses`. */
function isName(name: string, { schema }: LocatedSchema): boolean {
  if (!('propertyNames' in schema)) return name.trim() !== '' && !name.includes('\n')
  return /^[\p{L}\p{N}](?:[\p{L}\p{N}_-]*[\p{L}\p{N}_])?$/u.test(name)
}

/** The whole value of the key with one entry set; null where another one has the name. */
function withEntry(
  here: FormPlace,
  target: FormTarget,
  key: LocatedSchema,
  name: string,
  value: FormValue,
): FormValue | null {
  const node = nodeOf(here, target)
  const whole = node === null ? {} : longForm(node, key)
  if (!isMap(whole)) return null
  if (target.name !== name && Object.hasOwn(whole, name)) return null
  const entry = isBlank(value) && key.schema.short?.list === 'names' ? {} : value
  if (target.name === null || !Object.hasOwn(whole, target.name)) return { ...whole, [name]: entry }
  return Object.fromEntries(
    Object.entries(whole).map(([own, before]) => (own === target.name ? [name, entry] : [own, before])),
  )
}

function changesFor(
  open: OpenText,
  here: FormPlace,
  target: FormTarget,
  key: LocatedSchema,
  name: string | null,
  next: FormValue,
): readonly TextChange[] | null {
  const { text } = open
  const node = nodeOf(here, target)
  if (node === null) return [insertion(open, here, target, key, next)]
  if (target.name !== null && name !== null && target.name !== name)
    return renamedEntry(open, node, key, target.name, name, next)
  if (isNamesList(key) && node.kind !== 'map' && isMap(next) && Object.values(next).some((value) => !isBlank(value)))
    return writtenOver(open, here, target, key, next)
  if (node.kind !== 'map' || !isMap(next) || !isNamesList(key)) return valueChanges(text, node, key, next, false)
  // A map of entries of which some are only named: each is changed by itself.
  const fresh = Object.entries(next).filter(([own]) => !node.entries.some((entry) => entry.key === own))
  const changes = node.entries.flatMap((entry) => {
    const property = propertySchema(key, entry.key)
    const own = next[entry.key]
    return property === null || own === undefined ? [] : valueChanges(text, entry.value, property, own, false)
  })
  const added = fresh.flatMap(([own, value]) => {
    const property = propertySchema(key, own)
    return property === null ? [] : [{ name: own, value, property }]
  })
  return added.length === 0 ? changes : [...changes, addition(text, node, added)]
}

const isNamesList = ({ schema }: LocatedSchema): boolean => schema.short?.list === 'names'

/** `roles: [fitter]` becomes lines of its own when one of them says more than its name. */
function writtenOver(
  { text, file }: OpenText,
  { block, indent }: FormPlace,
  target: FormTarget,
  key: LocatedSchema,
  next: FormValue,
): readonly TextChange[] | null {
  const entry = block?.map.entries.find((one) => one.key === target.key)
  if (entry === undefined) return null
  let end = entry.value.at.end
  while (/\s/.test(text[end - 1] ?? '')) end--
  const lines = keyLines(target.key, next, key).join(`\n${' '.repeat(indent)}`)
  return [{ at: { file, start: entry.keyAt.start, end }, newText: lines }]
}

function renamedEntry(
  open: OpenText,
  node: BlockNode,
  key: LocatedSchema,
  oldName: string,
  name: string,
  next: FormValue,
): readonly TextChange[] | null {
  const entry = node.kind === 'map' ? node.entries.find((one) => one.key === oldName) : undefined
  const property = propertySchema(key, oldName)
  if (entry === undefined || property === null || !isMap(next)) return null
  const renaming = renameEdits(open, entry.keyAt.start, name)
  const names = renaming.kind === 'changes' ? renaming.changes : [{ at: entry.keyAt, newText: name }]
  return [...names, ...valueChanges(open.text, entry.value, property, next[name] ?? '', false)]
}

/** A key that is not there yet: at the end of its block, or in a block of its own. */
function insertion(
  open: OpenText,
  here: FormPlace,
  target: FormTarget,
  key: LocatedSchema,
  next: FormValue,
): TextChange {
  const { text, file } = open
  const pad = ' '.repeat(here.indent)
  const lines = keyLines(target.key, next, key)
  const { block } = here
  if (block !== null) {
    // Before the fence that closes it.
    const fence = text.lastIndexOf('\n', block.at.end - 1) + 1
    return { at: { file, start: fence, end: fence }, newText: lines.map((line) => `${pad}${line}\n`).join('') }
  }
  const body = ['```yaml', ...lines, '```'].map((line) => `${pad}${line}`).join('\n')
  const at = { file, start: here.insertAt, end: here.insertAt }
  if (here.place === 'step') return { at, newText: `\n${body}` }
  if (here.place === 'phase') return { at, newText: `\n\n${body}` }
  const before = text.slice(0, here.insertAt).endsWith('\n\n') || here.insertAt === 0 ? '' : '\n\n'
  return { at, newText: `${before}${body}\n\n` }
}

/** Where an offset comes to stand: behind what goes in before it. */
function moved(changes: readonly TextChange[], offset: number): number {
  return changes
    .filter(({ at }) => at.end < offset)
    .reduce((sum, { at, newText }) => sum + newText.length - (at.end - at.start), offset)
}
