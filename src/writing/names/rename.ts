import { schemas } from '#generated/schemas'
import type { TextChange } from '../../findings/finding.ts'
import { readMachine } from '../../library/read-machine.ts'
import { functionNames } from '../../quantities/expression.ts'
import { valueAt } from '../../syntax/block-node.ts'
import { isReserved } from '../../syntax/reserved-names.ts'
import { type OpenText, openText } from '../open-text.ts'
import { withChanges } from '../with-changes.ts'
import { cataloguesOf, nameAt, sameNames, sharedPlace } from './find-names.ts'
import { namesInFragments } from './fragment-names.ts'
import { type NameMark, type NameSort, sortInWords } from './name-mark.ts'

export type Renaming =
  | { readonly kind: 'changes'; readonly changes: readonly TextChange[] }
  /** `because` is a sentence or two for the author. */
  | { readonly kind: 'refused'; readonly because: string }

export type Renameable =
  | { readonly kind: 'name'; readonly name: string; readonly start: number; readonly end: number }
  | { readonly kind: 'refused'; readonly because: string }

/** Names that mean something outside this text, or are words of the language. */
const notRenamed: ReadonlySet<NameSort> = new Set<NameSort>(['machine', 'machine-energy', 'fragment', 'finding'])

/** Whether the name at an offset can get another one, before anybody has typed it. */
export function renameableAt(open: OpenText, offset: number): Renameable {
  const mark = nameAt(open, offset)
  if (mark === null)
    return refused('Here stands no name. Put the cursor on the name of a step, reading, state, zone, role or torque.')
  const because = whyNot(open, mark)
  return because === null ? { kind: 'name', name: mark.name, start: mark.at.start, end: mark.at.end } : refused(because)
}

/** Every change that gives the name at an offset another one; refused where something could be left with the old one. */
export function renameEdits(open: OpenText, offset: number, newName: string): Renaming {
  const mark = nameAt(open, offset)
  if (mark === null) return refused('Here stands no name.')
  const wanted = newName.trim()
  const because = whyNot(open, mark) ?? whyNotSo(open, mark, wanted)
  if (because !== null) return refused(because)
  const same = sameNames(open, mark)
  const changes = same.map(({ at, isInWords }) => ({
    at,
    newText: isInWords ? inWords(wanted, open.text.slice(at.start, at.end)) : wanted,
  }))
  if (!keepsMeaning(open, same, wanted, changes))
    return refused(`With the name ${wanted}, something in this text would mean another thing. Take a different name.`)
  return { kind: 'changes', changes }
}

const refused = (because: string) => ({ kind: 'refused', because }) as const

/** Why a name stays as it is, whatever the new one. */
function whyNot(open: OpenText, mark: NameMark): string | null {
  if (open.findings.some(({ severity }) => severity === 'error'))
    return 'A part of this text cannot be read yet, and the name could stand in it. Mend the errors first.'
  if (notRenamed.has(mark.sort))
    return `${mark.name} is the name of a ${sortInWords[mark.sort]} and belongs to the library.`
  const same = sameNames(open, mark)
  const isDefinedHere = same.some(({ defines }) => defines)
  if (!isDefinedHere && sharedPlace(open, mark) !== null)
    return `${mark.name} stands in the library, and other procedures use it. Change it there.`
  if (!isDefinedHere && !same.some(({ sort }) => sort === 'thing'))
    return `Nothing in this text says what ${mark.name} is.`
  const fragment = namesInFragments(open).find(({ names }) =>
    names.some((other) => other.name === mark.name && same.some(({ sort }) => sort === other.sort)),
  )
  if (fragment !== undefined)
    return `The fragment ${fragment.id} names ${mark.name}, too, and it is shared with other procedures.`
  return namedByMachine(open, same, mark.name)
}

/** A state stands for the energy of the machine that has its name; locks go on isolation points of the machine. */
function namedByMachine(open: OpenText, same: readonly NameMark[], name: string): string | null {
  if (!same.some(({ sort }) => sort === 'state' || sort === 'thing')) return null
  const machine = open.names.find(({ sort }) => sort === 'machine')
  if (machine === undefined) return null
  const file = readMachine(open.library.reader, machine.name).value.value ?? undefined
  if (valueAt(valueAt(file, 'isolation-points'), name) !== undefined)
    return `${name} is an isolation point of the machine ${machine.name}, and has its name there.`
  const isEnergy = valueAt(valueAt(file, 'energies'), name) !== undefined
  const isMapped = open.names.some((mark) => mark.sort === 'machine-energy' && mark.name === name)
  if (!isEnergy || isMapped) return null
  return `The state ${name} stands for the energy ${name} of the machine ${machine.name}. Write under machine: which state stands for it, then rename.`
}

/** Readings, torques, states and variants stand in the same formulas. */
const inFormulas: readonly NameSort[] = ['reading', 'torque', 'state', 'variant']

/** Why the new name cannot be had. */
function whyNotSo(open: OpenText, mark: NameMark, wanted: string): string | null {
  if (wanted === mark.name) return `It is called ${wanted} already.`
  const sorts = new Set(sameNames(open, mark).map(({ sort }) => sort))
  const isId = sorts.has('step')
  if (isId && !(/^[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/.test(wanted) && !isReserved(wanted)))
    return 'An id has small letters a to z, figures and single hyphens, a letter first: tighten-bolts.'
  if (!isName(wanted))
    return `${wanted || 'Nothing'} cannot be a name: it has letters, figures and hyphens, like take-up.`
  if (reservedWords().has(wanted)) return `${wanted} is a word of the language and cannot be a name.`
  const isInFormulas = inFormulas.some((sort) => sorts.has(sort))
  if (isInFormulas && (functionNames as readonly string[]).includes(wanted))
    return `${wanted} is a word of formulas and cannot be a name.`
  const rivals = new Set<NameSort>([
    ...sorts,
    ...(isInFormulas ? inFormulas : []),
    ...(sorts.has('state') ? (['thing'] as const) : []),
  ])
  const taken = open.names.find(
    (other) =>
      other.name === wanted &&
      rivals.has(other.sort) &&
      (mark.owner === null || other.owner === null || other.owner === mark.owner),
  )
  if (taken !== undefined) return `${wanted} is already the name of a ${sortInWords[taken.sort]}.`
  if ([...sorts].some((sort) => cataloguesOf(open, sort).some((items) => items.has(wanted))))
    return `${wanted} stands in the library already.`
  return null
}

interface NameSchema {
  readonly pattern: string
  readonly not: { readonly enum: readonly string[] }
}

const nameSchema = (): NameSchema =>
  (schemas.common as { readonly $defs: { readonly 'new-name': NameSchema } }).$defs['new-name']

const isName = (name: string): boolean => new RegExp(nameSchema().pattern, 'u').test(name) && !isReserved(name)

const reservedWords = (): ReadonlySet<string> => new Set(nameSchema().not.enum)

/** `tyre-hand` in running text is `Tyre hand`, where the old one began with a capital. */
function inWords(name: string, before: string): string {
  const words = name.replaceAll('-', ' ')
  return /^\p{Lu}/u.test(before) ? words.charAt(0).toUpperCase() + words.slice(1) : words
}

/** The changed text has the same names in the same order, but for the one that was changed. */
function keepsMeaning(
  open: OpenText,
  same: readonly NameMark[],
  wanted: string,
  changes: readonly TextChange[],
): boolean {
  const after = openText(open.file, withChanges(open.text, changes), open.library)
  const renamed = new Set(same)
  return (
    after.names.length === open.names.length &&
    after.findings.length === open.findings.length &&
    open.names.every((mark, index) => {
      const now = after.names[index]
      return now?.sort === mark.sort && now.name === (renamed.has(mark) ? wanted : mark.name)
    })
  )
}
