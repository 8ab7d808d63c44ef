import type { Place } from '../text/place.ts'
import { type LineAndColumn, lineAndColumn, type SourceText } from '../text/source-text.ts'

/** A place with its lines and columns (from 1, UTF-16 units, the end not included). */
export interface LocatedPlace {
  readonly file: string
  /** Null where the file could not be read as text. */
  readonly range: { readonly start: LineAndColumn; readonly end: LineAndColumn } | null
}

/** Gives places of these sources their lines and columns. */
export function locator(sources: readonly SourceText[]): (at: Place) => LocatedPlace {
  const byPath = new Map(sources.map((source) => [source.path, source]))
  return (at) => {
    const source = byPath.get(at.file)
    if (source === undefined) return { file: at.file, range: null }
    return { file: at.file, range: { start: lineAndColumn(source, at.start), end: lineAndColumn(source, at.end) } }
  }
}
