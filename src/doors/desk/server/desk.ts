import type { News } from '../wire.ts'
import type { ProcedureShelf } from './procedure-files.ts'
import type { Workplace } from './workplace.ts'

/** What every answer of the desk stands on. */
export interface Desk {
  readonly shelf: ProcedureShelf
  readonly workplace: Workplace
  /** What happened to the files of the library, the oldest first. */
  readonly happened: News[]
}

/** The fields of a body, not yet judged. */
export type Fields = Readonly<Record<string, unknown>>

/** A field as text; empty where it is none. */
export function text(fields: Fields, name: string): string {
  const value = fields[name]
  return typeof value === 'string' ? value : ''
}
