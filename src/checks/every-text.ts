import type { Entry } from '../model/entries.ts'
import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { Resource } from '../model/resources.ts'
import type { PlainValue } from '../syntax/block-node.ts'
import type { Inline, Prose } from '../syntax/prose.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import { oncePer } from '../text/once-per.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'
import { placeOfValue } from './written-words.ts'

/** Words as they stand somewhere. What is worked out of them alone can be kept for as long as they stand there. */
export interface TypedText {
  readonly text: string
  /** A value of a block, as typed; prose otherwise. */
  readonly isValue: boolean
}

/** Words that the author wrote, with the place to point at. */
export interface AuthorText extends TypedText {
  readonly typed: TypedText
  /** The place of a part of the text, or of what it stands in. */
  readonly placeOf: (part: string) => Place
}

/** Keys whose things are told below by themselves, wherever they were described. */
const TOLD_APART: ReadonlySet<string> = new Set('hazards tools gear parts consumables ppe'.split(' '))

/** Everything written in words or as a value: prose, steps, blocks, hazards, things to fetch. Each once, however often a step is repeated. */
export function everyText(procedure: Procedure, written: WrittenProcedure): readonly AuthorText[] {
  const known = textsOf.get(procedure)
  if (known?.written === written) return known.texts
  const texts = collected(procedure, written).map((told) => authorText(told, written))
  textsOf.set(procedure, { written, texts })
  return texts
}

/** The texts are asked for by many checks: they are collected once for each procedure. */
const textsOf = new WeakMap<Procedure, { readonly written: WrittenProcedure; readonly texts: readonly AuthorText[] }>()

/** Words, the place that they stand at, and whether they are searched for in the blocks to find a nearer one. */
interface Told {
  readonly typed: TypedText
  readonly at: Place
  readonly isSearched: boolean
}

function authorText({ typed, at, isSearched }: Told, written: WrittenProcedure): AuthorText {
  const { text, isValue } = typed
  return { typed, text, isValue, placeOf: (part) => (isSearched ? placeOfValue(written, at, part) : at) }
}

function collected(procedure: Procedure, written: WrittenProcedure): readonly Told[] {
  const { document, purpose, entries, phases, hazards, resources } = procedure
  const opening = written.title?.at ?? document.at
  return [
    ...said(written.title?.text ?? '', opening),
    ...purpose.flatMap(proseWords).flatMap((text) => said(text, opening)),
    ...entries.flatMap(typedIn),
    ...hazards.flatMap(textsOfHazard),
    ...Object.values(resources).flat().flatMap(textsOfResource),
    ...phases.flatMap(textsOfPhase),
    ...everyWrittenStep(procedure).flatMap(({ step }) => textsOfStep(step)),
  ]
}

const textsOfHazard = oncePer(({ hazard, consequence, avoid, at }: Procedure['hazards'][number]) =>
  [hazard, consequence, avoid].flatMap((text) => said(text, at, true)),
)

const textsOfResource = oncePer(({ name, facts, at }: Resource) =>
  [name, ...facts.map((fact) => fact.text)].flatMap((text) => said(text, at, true)),
)

const textsOfPhase = oncePer((phase: Phase): readonly Told[] => [
  ...said(phase.title, phase.at),
  ...phase.prose.flatMap(proseWords).flatMap((text) => said(text, phase.at)),
  ...phase.entries.flatMap(typedIn),
])

const textsOfStep = oncePer((step: Step): readonly Told[] => [...toldIn(step), ...step.entries.flatMap(typedIn)])

/** The instruction of a step, those of the people acting in it, and everything below it but its block. */
export function wordingOf(step: Step): readonly { readonly text: string; readonly at: Place }[] {
  return toldIn(step).map(({ typed, at }) => ({ text: typed.text, at }))
}

const toldIn = oncePer((step: Step): readonly Told[] => [
  ...said(plainWords(step.text.inlines), step.at),
  ...step.acts.flatMap(({ text, at }) => said(plainWords(text.inlines), at)),
  ...step.details.flatMap(proseWords).flatMap((text) => said(text, step.at)),
])

/** The words of a line, without the values that the program puts in. */
export function plainWords(inlines: readonly Inline[]): string {
  return inlines
    .map((inline): string => {
      if (inline.kind === 'text' || inline.kind === 'code') return inline.text
      if (inline.kind === 'break') return ' '
      if (inline.kind === 'value') return '…'
      return plainWords(inline.children)
    })
    .join('')
}

/** Paragraphs, items and cells, each by itself; what a figure says is its description and caption. */
export function proseWords(prose: Prose): readonly string[] {
  switch (prose.kind) {
    case 'paragraph':
      return [plainWords(prose.children)]
    case 'list':
      return prose.items.flat().flatMap(proseWords)
    case 'quote':
      return prose.children.flatMap(proseWords)
    case 'table':
      return [prose.head, ...prose.rows].flat().map(plainWords)
    case 'figure':
      return [prose.alt, prose.caption]
  }
}

/** What stands in prose is found again only by what it stands in; values of catalogues by their name. */
function said(text: string, at: Place, isSearched = false): readonly Told[] {
  return text === '' ? [] : [{ typed: { text, isValue: false }, at, isSearched }]
}

const typedIn = oncePer(({ key, data, at }: Entry): readonly Told[] => {
  if (TOLD_APART.has(key)) return []
  return scalarsOf(data).map((text) => ({ typed: { text, isValue: true }, at, isSearched: true }))
})

function scalarsOf(data: PlainValue): readonly string[] {
  if (typeof data === 'string') return [data]
  return (Array.isArray(data) ? data : Object.values(data)).flatMap(scalarsOf)
}
