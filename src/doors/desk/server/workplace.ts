import {
  type Compiled,
  type CompileMemory,
  compileProcedure,
  newMemory,
  type OpenLibrary,
  openLibrary,
} from '../../../compile.ts'
import { libraryOnDisk } from '../../../devices/library-on-disk.ts'
import type { LibraryReader } from '../../../library/library-reader.ts'
import { withTexts } from '../../../library/with-texts.ts'
import { type OpenText, openText } from '../../../writing/open-text.ts'

/** What the compiler last said of a procedure, and of which text. */
export interface Looked {
  readonly text: string
  readonly compiled: Compiled
  /** The library's own findings stand in the way as well. */
  readonly library: OpenLibrary
  readonly took: number
}

export interface Workplace {
  readonly reader: LibraryReader
  readonly library: () => OpenLibrary
  /** Compiles a procedure as it stands on the page; the same text is not compiled twice. */
  readonly look: (file: string, text: string) => Looked
  /** The last look at a procedure, or null. */
  readonly last: (file: string) => Looked | null
  /** The text read for whoever helps to write it: only what changed since the last time is read again. */
  readonly read: (file: string, text: string) => OpenText
  /** Something in `shared/` or the settings changed: everything is read again. */
  readonly forget: () => void
}

/** How many procedures are kept compiled at the same time. */
const kept = 8

/** The compiler over a library on the disk, with the open procedures as they stand on the page and not on the disk. */
export function openWorkplace(root: string): Workplace {
  const texts = new Map<string, string>()
  const looks = new Map<string, Looked>()
  const reads = new Map<string, OpenText>()
  const memories = new Map<string, CompileMemory>()
  const disk = libraryOnDisk(root)
  const reader = withTexts(disk, texts)
  let library: OpenLibrary | null = null
  const opened = (): OpenLibrary => {
    library ??= openLibrary(reader)
    return library
  }
  return {
    reader: disk,
    library: opened,
    look: (file, text) => {
      const before = looks.get(file)
      if (before?.text === text) return before
      const started = performance.now()
      texts.set(file, text)
      const memory = memories.get(file) ?? newMemory()
      memories.set(file, memory)
      const compiled = compileProcedure(file, opened(), memory)
      const looked = { text, compiled, library: opened(), took: performance.now() - started }
      looks.delete(file)
      looks.set(file, looked)
      for (const oldest of looks.keys()) {
        if (looks.size <= kept) break
        looks.delete(oldest)
        texts.delete(oldest)
        memories.delete(oldest)
      }
      return looked
    },
    read: (file, text) => {
      const before = reads.get(file)
      if (before?.text === text) return before
      const read = openText(file, text, opened(), before)
      reads.delete(file)
      reads.set(file, read)
      for (const oldest of reads.keys()) if (reads.size > kept) reads.delete(oldest)
      return read
    },
    last: (file) => looks.get(file) ?? null,
    forget: () => {
      library = null
      looks.clear()
      reads.clear()
      memories.clear()
    },
  }
}
