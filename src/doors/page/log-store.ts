import type { Entry } from '../../record/entry.ts'

/** Where the entries of jobs are kept: on this device only. */
export interface LogStore {
  /** Everything ever kept for this procedure. */
  readonly read: () => Promise<Kept>
  /**
   * Adds what `make` gives for what is kept at that very moment; nobody else can write in between. Resolves when it is
   * kept; rejects when it could not be. Null adds nothing.
   */
  readonly add: (make: (kept: Kept) => Addition | null) => Promise<Kept>
  /** Photos by SHA-256, in base64. */
  readonly photos: (names: readonly string[]) => Promise<ReadonlyMap<string, string>>
  /** False where nothing outlasts the closing of the page. */
  readonly lasting: boolean
}

export interface Kept {
  readonly entries: readonly StoredEntry[]
  /** The run under way, or empty. */
  readonly run: string
}

export interface StoredEntry {
  readonly run: string
  readonly entry: Entry
}

interface Addition {
  readonly entries: readonly StoredEntry[]
  readonly run: string
  readonly photos?: ReadonlyMap<string, string>
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
  const opening = indexedDB.open('witnessmark runs', 1)
  opening.onupgradeneeded = () => {
    opening.result.createObjectStore('entries', { autoIncrement: true }).createIndex('digest', 'digest')
    opening.result.createObjectStore('runs')
    opening.result.createObjectStore('photos')
  }
  const database = await settled(opening)
  const readIn = async (transaction: IDBTransaction): Promise<Kept> => {
    const [entries, run] = await Promise.all([
      settled<StoredEntry[]>(transaction.objectStore('entries').index('digest').getAll(digest)),
      settled<string | undefined>(transaction.objectStore('runs').get(digest)),
    ])
    return { entries: entries.map(({ run, entry }) => ({ run, entry })), run: run ?? '' }
  }
  return {
    lasting: true,
    read: () => readIn(database.transaction(['entries', 'runs'])),
    add: (make) =>
      new Promise((resolve, reject) => {
        // Strict: on the disk before the tick shows, so that a flat battery loses nothing that was seen.
        const transaction = database.transaction(['entries', 'runs', 'photos'], 'readwrite', { durability: 'strict' })
        let after: Kept = { entries: [], run: '' }
        transaction.oncomplete = () => resolve(after)
        transaction.onabort = () => reject(transaction.error)
        transaction.onerror = () => reject(transaction.error)
        readIn(transaction)
          .then((kept) => {
            const addition = make(kept)
            after = afterAdding(kept, addition)
            if (addition === null) return
            for (const stored of addition.entries) transaction.objectStore('entries').add({ digest, ...stored })
            for (const [name, content] of addition.photos ?? []) transaction.objectStore('photos').put(content, name)
            transaction.objectStore('runs').put(addition.run, digest)
          })
          .catch((error: unknown) => {
            reject(error)
            transaction.abort()
          })
      }),
    photos: async (names) => {
      const store = database.transaction('photos').objectStore('photos')
      const found = await Promise.all(names.map((name) => settled<string | undefined>(store.get(name))))
      return new Map(names.flatMap((name, index) => (found[index] === undefined ? [] : [[name, found[index]]])))
    },
  }
}

function settled<T>(request: IDBRequest<T>): Promise<T> {
  return new Promise((resolve, reject) => {
    request.onsuccess = () => resolve(request.result)
    request.onerror = () => reject(request.error)
  })
}

function afterAdding(kept: Kept, addition: Addition | null): Kept {
  return addition === null ? kept : { entries: [...kept.entries, ...addition.entries], run: addition.run }
}

function textStore(digest: string): LogStore {
  const key = `witnessmark runs ${digest}`
  const read = (): Kept => JSON.parse(localStorage.getItem(key) ?? '{"entries":[],"run":""}')
  localStorage.setItem(key, JSON.stringify(read()))
  return {
    lasting: true,
    read: async () => read(),
    add: async (make) => {
      const kept = read()
      const addition = make(kept)
      if (addition?.photos?.size) throw new Error('no room for photos')
      const after = afterAdding(kept, addition)
      localStorage.setItem(key, JSON.stringify(after))
      return after
    },
    photos: async () => new Map(),
  }
}

function memoryStore(): LogStore {
  let kept: Kept = { entries: [], run: '' }
  const photos = new Map<string, string>()
  return {
    lasting: false,
    read: async () => kept,
    add: async (make) => {
      const addition = make(kept)
      kept = afterAdding(kept, addition)
      for (const [name, content] of addition?.photos ?? []) photos.set(name, content)
      return kept
    },
    photos: async (names) => new Map([...photos].filter(([name]) => names.includes(name))),
  }
}
