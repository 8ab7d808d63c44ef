/** What a look into the library gives. */
export type FileAnswer =
  | { readonly kind: 'text'; readonly text: string }
  | { readonly kind: 'bytes'; readonly base64: string }
  | { readonly kind: 'missing' }
  /** It exists but is not given: outside the library, a link that leads out, unreadable, too large, binary where text is wanted. */
  | { readonly kind: 'refused'; readonly because: string }

/**
 * The one window of the core to files. Paths are relative to the library's root, with forward slashes.
 * A door implements it over the disk; tests and the browser over a map.
 */
export interface LibraryReader {
  readonly readText: (path: string) => FileAnswer
  readonly readBytes: (path: string) => FileAnswer
  /** Paths of the files directly in a folder, sorted; empty where there is no such folder. */
  readonly listFolder: (folder: string) => readonly string[]
}
