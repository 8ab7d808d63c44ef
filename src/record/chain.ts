import { sha256 } from '@noble/hashes/sha2.js'
import { bytesToHex, utf8ToBytes } from '@noble/hashes/utils.js'
import canonicalize from 'canonicalize'
import type { Entry, Happening, Person } from './entry.ts'

/** What every entry of a run is bound to: nothing can be moved to another run or another procedure. */
export interface Binding {
  readonly run: string
  /** Digest of the step file. */
  readonly procedure: string
}

/** Bound to all that went before: what is changed afterwards no longer fits. */
export function entryAfter(
  binding: Binding,
  entries: readonly Entry[],
  at: string,
  by: readonly Person[],
  happening: Happening,
): Entry {
  const entry = { after: lastOf(entries), at, by, ...happening }
  return { id: idOf(binding, entry), ...entry }
}

/** SHA-256 over the RFC 8785 form. */
export function digestOfJson(value: unknown): string {
  return bytesToHex(sha256(utf8ToBytes(canonicalize(value) ?? '')))
}

function idOf({ run, procedure }: Binding, entry: Omit<Entry, 'id'>): string {
  return digestOfJson({ run, procedure, entry }).slice(0, 32)
}

/** Ids of the entries that no other entry comes after. */
function lastOf(entries: readonly Entry[]): readonly string[] {
  const followed = new Set(entries.flatMap(({ after }) => after))
  return entries
    .map(({ id }) => id)
    .filter((id) => !followed.has(id))
    .sort()
}

/** What of a run's entries was changed, is lacking or stands before what it rests on; empty where all fits. */
export function brokenLinks(binding: Binding, entries: readonly Entry[]): readonly string[] {
  const seen = new Set<string>()
  return entries.flatMap((entry, index) => {
    const { id, ...rest } = entry
    const where = `Entry ${index + 1} (${entry.kind}, ${entry.at || 'no time'})`
    const faults: string[] = []
    if (idOf(binding, rest) !== id) faults.push(`${where} was changed after it was written.`)
    if (seen.has(id)) faults.push(`${where} stands there twice.`)
    if (entry.after.some((before) => !seen.has(before)))
      faults.push(`${where}: something written before it is missing.`)
    if ((entry.kind === 'begin') !== (entry.after.length === 0))
      faults.push(`${where} does not follow from the beginning.`)
    seen.add(id)
    return faults
  })
}

/**
 * The entries of two copies of one run, each once: none before what it rests on, else by time. The same whichever copy
 * comes first.
 */
export function joinEntries(one: readonly Entry[], other: readonly Entry[]): readonly Entry[] {
  const all = new Map([...one, ...other].map((entry) => [entry.id, entry]))
  const waiting = new Map(
    [...all.values()].map(({ id, after }) => [id, new Set(after.filter((before) => all.has(before)))]),
  )
  const followers = new Map<string, string[]>()
  for (const [id, before] of waiting)
    for (const other of before) followers.set(other, [...(followers.get(other) ?? []), id])
  const ready = [...all.values()].filter(({ id }) => waiting.get(id)?.size === 0)
  const joined: Entry[] = []
  while (ready.length > 0) {
    ready.sort(earlierFirst)
    const entry = ready.shift()
    if (entry === undefined) break
    joined.push(entry)
    for (const follower of followers.get(entry.id) ?? []) {
      const before = waiting.get(follower)
      before?.delete(entry.id)
      const next = all.get(follower)
      if (before?.size === 0 && next !== undefined) ready.push(next)
    }
  }
  return joined
}

function earlierFirst(a: Entry, b: Entry): number {
  const apart = instantOf(a.at) - instantOf(b.at)
  return apart !== 0 ? apart : a.id < b.id ? -1 : 1
}

function instantOf(at: string): number {
  const instant = Date.parse(at)
  return Number.isNaN(instant) ? 0 : instant
}

/** SHA-256 of bytes written in base64, in 64 hexadecimal digits; empty where it is no base64. */
export function digestOfBase64(content: string): string {
  try {
    const binary = atob(content)
    return bytesToHex(sha256(Uint8Array.from(binary, (letter) => letter.charCodeAt(0))))
  } catch {
    return ''
  }
}
