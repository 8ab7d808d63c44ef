import type { Place } from '../../text/place.ts'
import type { Prose } from '../prose.ts'
import type { WrittenBlock, WrittenId, WrittenStep } from '../written.ts'

/** What a stretch of Markdown holds, in the order written. */
export type Piece = HeadingPiece | ProsePiece | BlockPiece | StepsPiece

export interface HeadingPiece {
  readonly kind: 'heading'
  readonly depth: number
  readonly title: string
  readonly id: WrittenId | null
  readonly at: Place
}

export interface ProsePiece {
  readonly kind: 'prose'
  readonly prose: Prose
  readonly at: Place
}

export interface BlockPiece {
  readonly kind: 'block'
  /** Null where it could not be read; a finding says why. */
  readonly block: WrittenBlock | null
  /** Its end is not where the author meant it to be. */
  readonly isLeftOpen: boolean
  readonly at: Place
}

interface StepsPiece {
  readonly kind: 'steps'
  readonly steps: readonly WrittenStep[]
  readonly at: Place
}
