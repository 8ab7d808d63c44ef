import { brokenLinks, digestOfBase64, digestOfJson } from './chain.ts'
import { isEntry } from './entry-shape.ts'
import type { RunRecord } from './run-record.ts'

export interface ReadRecord {
  /** Null where the text is no record, or one that was changed or damaged. */
  readonly record: RunRecord | null
  /** In words for whoever opened the file; empty where all fits. */
  readonly faults: readonly string[]
}

/**
 * Reads the text of a record file and checks that it is whole: its shape, its digest, and that every entry fits those
 * before it. That finds what was changed or damaged afterwards. It does not show who wrote the file.
 */
export function readRecord(text: string): ReadRecord {
  let value: unknown
  try {
    value = JSON.parse(text)
  } catch {
    return refused('This is not a record file: it is no JSON.')
  }
  if (!isObject(value) || value.format !== 'witnessmark-record')
    return refused('This is not a record file of witnessmark.')
  if (value.formatVersion !== '1.0')
    return refused(`This record has the format version ${shown(value.formatVersion)}. Only 1.0 can be read.`)
  if (!hasShape(value)) return refused('This record is not whole: a part of it is missing or is not what it should be.')
  const { digest, ...rest } = value
  if (digest !== `sha256:${digestOfJson(rest)}`)
    return refused('This record was changed or damaged after it was saved: its digest does not fit.')
  const { run, document, entries, photos } = value
  const faults = brokenLinks({ run, procedure: document.digest }, entries)
  const first = entries[0]
  if (first?.kind !== 'begin' || first.run !== run)
    return refused('This record does not start at the beginning of its run.')
  const strange = photos.find(({ photo, content }) => content !== null && digestOfBase64(content) !== photo)
  const all = strange === undefined ? faults : [...faults, 'A photo in this record is not the one that was taken.']
  return all.length > 0 ? { record: null, faults: all } : { record: value, faults: [] }
}

function refused(fault: string): ReadRecord {
  return { record: null, faults: [fault] }
}

function shown(value: unknown): string {
  return typeof value === 'string' ? `"${value.slice(0, 20)}"` : 'none'
}

function isObject(value: unknown): value is Readonly<Record<string, unknown>> {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
}

const lists = [
  ...['people', 'steps', 'holds', 'decisions', 'tries', 'waits', 'identities', 'deviations', 'notes', 'handovers'],
  ...['stops', 'open'],
]

/** What the reading of it relies on; everything else in it is told again from the entries. */
function hasShape(value: Readonly<Record<string, unknown>>): value is Readonly<Record<string, unknown>> & RunRecord {
  const { document, run, source, saved, entries, photos, digest } = value
  return (
    isObject(document) &&
    [document.number, document.revision, document.title, document.digest].every((one) => typeof one === 'string') &&
    [run, saved, digest].every((one) => typeof one === 'string') &&
    (source === 'page' || source === 'filled-print') &&
    lists.every((name) => Array.isArray(value[name])) &&
    Array.isArray(photos) &&
    photos.every(
      (photo) =>
        isObject(photo) &&
        typeof photo.photo === 'string' &&
        (photo.content === null || (typeof photo.content === 'string' && /^[A-Za-z0-9+/]*={0,2}$/.test(photo.content))),
    ) &&
    Array.isArray(entries) &&
    entries.length > 0 &&
    entries.every(isEntry)
  )
}
