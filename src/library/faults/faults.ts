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

export const unreadFile: FaultKind = {
  name: 'library/unread-file',
  severity: 'advice',
  title: 'A file lies in a folder of the library and is not read.',
}

export const unknownName: FaultKind = {
  name: 'library/unknown-name',
  severity: 'error',
  title: 'A machine names an energy or an isolation point that it does not have.',
}

export const settingRefused: FaultKind = {
  name: 'library/setting-refused',
  severity: 'error',
  title: 'A setting of the library cannot be what it says.',
}

export const libraryFaults: readonly FaultKind[] = [fileRefused, definedTwice, unreadFile, unknownName, settingRefused]
