import type { FaultKind } from '../findings/finding.ts'

export const unknownKey: FaultKind = {
  name: 'schema/unknown-key',
  severity: 'error',
  title: 'A block has a key that the language does not know.',
}

export const misplacedKey: FaultKind = {
  name: 'schema/misplaced-key',
  severity: 'error',
  title: 'A key stands in a block where it may not stand.',
}

export const unknownEntry: FaultKind = {
  name: 'schema/unknown-entry',
  severity: 'error',
  title: 'Something stands below a key that the key does not know.',
}

export const missingEntry: FaultKind = {
  name: 'schema/missing-entry',
  severity: 'error',
  title: 'Something that a key cannot do without is missing.',
}

export const emptyValue: FaultKind = {
  name: 'schema/empty-value',
  severity: 'error',
  title: 'A key or a word stands without its value.',
}

export const wrongShape: FaultKind = {
  name: 'schema/wrong-shape',
  severity: 'error',
  title: 'A value is a text, a list or a map where something else is wanted.',
}

export const unreadableValue: FaultKind = {
  name: 'schema/unreadable-value',
  severity: 'error',
  title: 'A text does not have the form that is wanted at its place.',
}

export const unknownChoice: FaultKind = {
  name: 'schema/unknown-choice',
  severity: 'error',
  title: 'A value is none of those that can be chosen here.',
}

export const unknownWord: FaultKind = {
  name: 'schema/unknown-word',
  severity: 'error',
  title: 'A piece of a short form begins with a word that is not known here.',
}

export const repeatedWord: FaultKind = {
  name: 'schema/repeated-word',
  severity: 'error',
  title: 'A short form says the same thing twice.',
}

export const duplicateItem: FaultKind = {
  name: 'schema/duplicate-item',
  severity: 'error',
  title: 'A list names the same thing twice.',
}

export const reservedName: FaultKind = {
  name: 'schema/reserved-name',
  severity: 'error',
  title: 'A name is a word that formulas and the language use themselves.',
}

export const unfitName: FaultKind = {
  name: 'schema/unfit-name',
  severity: 'error',
  title: 'A name has letters in it that a name cannot have.',
}

/** Every kind of finding about the shape of a block. */
export const schemaFaults: readonly FaultKind[] = [
  unknownKey,
  misplacedKey,
  unknownEntry,
  missingEntry,
  emptyValue,
  wrongShape,
  unreadableValue,
  unknownChoice,
  unknownWord,
  repeatedWord,
  duplicateItem,
  reservedName,
  unfitName,
]
