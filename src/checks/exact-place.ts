import type { Edit } from '../findings/finding.ts'
import type { Place } from '../text/place.ts'
import type { CheckSubject } from './check.ts'

/** The place of words within a larger place, where they stand there once and as typed; null otherwise. */
export function exactPlace({ texts }: Pick<CheckSubject, 'texts'>, at: Place, typed: string): Place | null {
  const text = texts?.get(at.file)?.slice(at.start, at.end)
  if (text === undefined || typed === '') return null
  const from = text.indexOf(typed)
  if (from === -1 || text.includes(typed, from + 1)) return null
  return { file: at.file, start: at.start + from, end: at.start + from + typed.length }
}

/** The edit that puts other words in the place of typed ones; nothing where they cannot be found for certain. */
export function replacing(subject: CheckSubject, at: Place, typed: string, right: string): { readonly edit?: Edit } {
  const place = exactPlace(subject, at, typed)
  return place === null ? {} : { edit: { title: `Write ${right}`, changes: [{ at: place, newText: right }] } }
}
