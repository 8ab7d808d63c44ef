import type { LibraryReader } from './library-reader.ts'

/** A library in which some texts stand otherwise than on the disk: changed and not written yet. Paths are those of the library. */
export function withTexts(reader: LibraryReader, texts: ReadonlyMap<string, string>): LibraryReader {
  return {
    ...reader,
    readText: (path) => {
      const text = texts.get(path)
      return text === undefined ? reader.readText(path) : { kind: 'text', text }
    },
  }
}
