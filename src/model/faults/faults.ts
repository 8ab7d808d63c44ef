import type { FaultKind } from '../../findings/finding.ts'

export const unknownTarget: FaultKind = {
  name: 'model/unknown-target',
  severity: 'error',
  title: 'A step or phase is named that this procedure does not have.',
}

export const repeatTargetUnknown: FaultKind = {
  name: 'model/repeat-target-unknown',
  severity: 'error',
  title: 'A repeat goes through a phase that does not follow.',
}

export const tableUnknown: FaultKind = {
  name: 'model/table-unknown',
  severity: 'error',
  title: 'A table is named that this document does not have.',
}

export const fastenerUnknown: FaultKind = {
  name: 'model/fastener-unknown',
  severity: 'error',
  title: 'A torque names a fastener that the library does not have.',
}

export const unreadableLimit: FaultKind = {
  name: 'model/unreadable-limit',
  severity: 'error',
  title: 'A limit cannot be read.',
}

export const refitUnknown: FaultKind = {
  name: 'model/refit-unknown',
  severity: 'error',
  title: 'A step cannot be reversed by itself.',
}

export const reverseTargetUnknown: FaultKind = {
  name: 'model/reverse-target-unknown',
  severity: 'error',
  title: 'A refit reverses a phase that does not come before it.',
}

export const reverseWithSteps: FaultKind = {
  name: 'model/reverse-with-steps',
  severity: 'error',
  title: 'A step of a refit does not say where it belongs.',
}

export const fragmentMissing: FaultKind = {
  name: 'model/fragment-missing',
  severity: 'error',
  title: 'A fragment is included that is not in shared/fragments.',
}

export const fragmentIncludesItself: FaultKind = {
  name: 'model/fragment-includes-itself',
  severity: 'error',
  title: 'A fragment includes itself.',
}

export const parameterMissing: FaultKind = {
  name: 'model/parameter-missing',
  severity: 'error',
  title: 'A fragment is included without a value that it asks for.',
}

export const parameterUnknown: FaultKind = {
  name: 'model/parameter-unknown',
  severity: 'error',
  title: 'A value is handed to a fragment that does not ask for it.',
}

export const parameterUnfilled: FaultKind = {
  name: 'model/parameter-unfilled',
  severity: 'error',
  title: 'A place for a value stays empty.',
}

export const figureMissing: FaultKind = {
  name: 'model/figure-missing',
  severity: 'error',
  title: 'A figure is shown that does not exist.',
}

export const figureRefused: FaultKind = {
  name: 'model/figure-refused',
  severity: 'error',
  title: 'A figure is not read.',
}

export const machineMissing: FaultKind = {
  name: 'model/machine-missing',
  severity: 'error',
  title: 'A machine is named that has no file in shared/machines.',
}

export const nameIsAState: FaultKind = {
  name: 'model/name-is-a-state',
  severity: 'error',
  title: 'A thing has the name of a state that cannot be what happens to it.',
}

export const modelFaults: readonly FaultKind[] = [
  unknownTarget,
  repeatTargetUnknown,
  tableUnknown,
  unreadableLimit,
  refitUnknown,
  reverseTargetUnknown,
  reverseWithSteps,
  fragmentMissing,
  fragmentIncludesItself,
  parameterMissing,
  parameterUnknown,
  parameterUnfilled,
  figureMissing,
  figureRefused,
  machineMissing,
  nameIsAState,
]
