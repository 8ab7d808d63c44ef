import type { LibraryReader } from '../src/library/library-reader.ts'

/** A library that stands in a map of paths to texts. */
export function mapLibrary(files: Readonly<Record<string, string>>): LibraryReader {
  return {
    readText: (path) => {
      const text = files[path]
      if (text === undefined) return { kind: 'missing' }
      // What a disk would find by its bytes: a printed sheet saved under the name of a text.
      return text.startsWith('%PDF-') ? { kind: 'refused', because: 'It is binary, not text.' } : { kind: 'text', text }
    },
    readBytes: (path) => {
      const text = files[path]
      return text === undefined
        ? { kind: 'missing' }
        : { kind: 'bytes', base64: Buffer.from(text, 'utf8').toString('base64') }
    },
    listFolder: (folder) =>
      Object.keys(files)
        .filter((path) => path.slice(0, path.lastIndexOf('/')) === folder)
        .sort(),
  }
}
