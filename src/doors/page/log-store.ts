import type { JobEvent } from './job-log.ts'

/** Where the entries of jobs are kept: on this device only. */
export interface LogStore {
  /** Every entry ever made for this procedure, in order. */
  readonly read: () => Promise<readonly StoredEntry[]>
  /** Resolves when the entry is kept; rejects when it could not be. */
  readonly add: (entry: StoredEntry) => Promise<void>
  /** False where nothing outlasts the closing of the page. */
  readonly lasting: boolean
}

export interface StoredEntry {
  readonly run: string
  readonly event: JobEvent
}

/** `digest` keeps procedures and their revisions apart. */
export async function openLogStore(digest: string): Promise<LogStore> {
  try {
    return await databaseStore(digest)
  } catch {
    // Some browsers keep no database for a page opened from a file.
  }
  try {
    return textStore(digest)
  } catch {
    return memoryStore()
  }
}

async function databaseStore(digest: string): Promise<LogStore> {
  const opening = indexedDB.open('witnessmark', 1)
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('entries', { autoIncrement: true }).createIndex('digest', 'digest')
  }
  const database = await settled(opening)
  return {
    lasting: true,
    read: () => settled(database.transaction('entries').objectStore('entries').index('digest').getAll(digest)),
    add: (entry) =>
      new Promise((resolve, reject) => {
        // Strict: on the disk before the tick shows, so that a flat battery loses nothing that was seen.
        const transaction = database.transaction('entries', 'readwrite', { durability: 'strict' })
        transaction.objectStore('entries').add({ digest, ...entry })
        transaction.oncomplete = () => resolve()
        transaction.onabort = () => reject(transaction.error)
        transaction.onerror = () => reject(transaction.error)
      }),
  }
}

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}

function textStore(digest: string): LogStore {
  const key = `witnessmark ${digest}`
  const read = (): readonly StoredEntry[] => JSON.parse(localStorage.getItem(key) ?? '[]')
  localStorage.setItem(key, localStorage.getItem(key) ?? '[]')
  return {
    lasting: true,
    read: async () => read(),
    add: async (entry) => localStorage.setItem(key, JSON.stringify([...read(), entry])),
  }
}

function memoryStore(): LogStore {
  const entries: StoredEntry[] = []
  return {
    lasting: false,
    read: async () => entries,
    add: async (entry) => {
      entries.push(entry)
    },
  }
}
