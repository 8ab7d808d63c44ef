import type { Fault } from '../../findings/finding.ts'
import type { Prose } from '../../syntax/prose.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenPart } from '../written-words.ts'

/** A picture that is not described is nothing to a screen reader, and to anyone with a smeared print. */
export const figureWithoutDescription: Check = {
  name: 'document/figure-without-description',
  severity: 'warning',
  title: 'A figure has no words for those who cannot see it.',
  rules: [],

  *run({ written }: CheckSubject): Iterable<Fault> {
    const prose = [
      ...written.prose,
      ...everyWrittenPart(written).flatMap((part) => ('details' in part ? part.details : part.prose)),
    ]
    for (const figure of prose.flatMap(figuresIn)) {
      if (figure.alt.trim() !== '') continue
      yield {
        at: figure.at ?? { file: written.file, start: 0, end: 0 },
        message: `The figure ${figure.file} has no description.`,
        advice: `Write in the square brackets what it shows: ![Bolts 1 to 8 in star order](${figure.file})`,
      }
    }
  },
}

type FigureProse = Extract<Prose, { readonly kind: 'figure' }>

function figuresIn(prose: Prose): readonly FigureProse[] {
  switch (prose.kind) {
    case 'figure':
      return [prose]
    case 'list':
      return prose.items.flat().flatMap(figuresIn)
    case 'quote':
      return prose.children.flatMap(figuresIn)
    case 'paragraph':
    case 'table':
      return []
  }
}
