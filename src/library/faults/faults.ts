import type { FaultKind } from '../../findings/finding.ts'

export const fileRefused: FaultKind = {
  name: 'library/file-refused',
  severity: 'error',
  title: 'A file of the library cannot be read.',
}

export const definedTwice: FaultKind = {
  name: 'library/defined-twice',
  severity: 'error',
  title: 'Two files of the library define the same thing.',
}

export const libraryFaults: readonly FaultKind[] = [fileRefused, definedTwice]
