import type { Phase, Procedure, Step } from '../model/procedure.ts'
import type { PlainValue } from '../syntax/block-node.ts'
import type { Inline, Prose } from '../syntax/prose.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'
import { everyWrittenStep } from './every-step.ts'
import { placeOfValue } from './written-words.ts'

/** Words that the author wrote, with the place to point at. */
export interface AuthorText {
  readonly text: string
  /** The place of a part of the text, or of what it stands in. */
  readonly placeOf: (part: string) => Place
  /** A value of a block, as typed; prose otherwise. */
  readonly isValue: boolean
}

/** Keys whose things are told below by themselves, wherever they were described. */
const TOLD_APART: ReadonlySet<string> = new Set('hazards tools gear parts consumables ppe'.split(' '))

/** Everything written in words or as a value: prose, steps, blocks, hazards, things to fetch. Each once, however often a step is repeated. */
export function everyText(procedure: Procedure, written: WrittenProcedure): readonly AuthorText[] {
  const known = textsOf.get(procedure) ?? collected(procedure, written)
  textsOf.set(procedure, known)
  return known
}

/** The texts are asked for by many checks: they are collected once for each procedure. */
const textsOf = new WeakMap<Procedure, readonly AuthorText[]>()

function collected(procedure: Procedure, written: WrittenProcedure): readonly AuthorText[] {
  const { document, purpose, entries, phases, hazards, resources } = procedure
  const opening = written.title?.at ?? document.at
  return [
    ...said(written.title?.text ?? '', opening),
    ...purpose.flatMap(proseWords).flatMap((text) => said(text, opening)),
    ...entries.flatMap((entry) => typedIn(entry, written)),
    ...hazards.flatMap(({ hazard, consequence, avoid, at }) =>
      [hazard, consequence, avoid].flatMap((text) => said(text, at, written)),
    ),
    ...Object.values(resources)
      .flat()
      .flatMap(({ name, facts, at }) =>
        [name, ...facts.map((fact) => fact.text)].flatMap((text) => said(text, at, written)),
      ),
    ...phases.flatMap((phase) => textsOfPhase(phase, written)),
    ...everyWrittenStep(procedure).flatMap(({ step }) => [
      ...wordingOf(step),
      ...step.entries.flatMap((entry) => typedIn(entry, written)),
    ]),
  ]
}

/** The instruction of a step, those of the people acting in it, and everything below it but its block. */
export function wordingOf(step: Step): readonly AuthorText[] {
  return [
    ...said(plainWords(step.text.inlines), step.at),
    ...step.acts.flatMap(({ text, at }) => said(plainWords(text.inlines), at)),
    ...step.details.flatMap(proseWords).flatMap((text) => said(text, step.at)),
  ]
}

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

function textsOfPhase(phase: Phase, written: WrittenProcedure): readonly AuthorText[] {
  return [
    ...said(phase.title, phase.at),
    ...phase.prose.flatMap(proseWords).flatMap((text) => said(text, phase.at)),
    ...phase.entries.flatMap((entry) => typedIn(entry, written)),
  ]
}

/** What stands in prose is found again only by what it stands in; values of catalogues by their name. */
function said(text: string, at: Place, written?: WrittenProcedure): readonly AuthorText[] {
  if (text === '') return []
  return [{ text, isValue: false, placeOf: (part) => (written ? placeOfValue(written, at, part) : at) }]
}

function typedIn(
  { key, data, at }: { readonly key: string; readonly data: PlainValue; readonly at: Place },
  written: WrittenProcedure,
): readonly AuthorText[] {
  if (TOLD_APART.has(key)) return []
  return scalarsOf(data).map((text) => ({
    text,
    isValue: true,
    placeOf: (part) => placeOfValue(written, at, part),
  }))
}

function scalarsOf(data: PlainValue): readonly string[] {
  if (typeof data === 'string') return [data]
  return (Array.isArray(data) ? data : Object.values(data)).flatMap(scalarsOf)
}
