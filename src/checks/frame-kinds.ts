import type { FaultKind } from '../findings/finding.ts'

export const crashed: FaultKind = {
  name: 'checks/crashed',
  severity: 'error',
  title: 'A check broke off, so what it guards was not looked at.',
}

export const acceptanceUnused: FaultKind = {
  name: 'checks/acceptance-unused',
  severity: 'warning',
  title: 'A finding is accepted that is not there.',
}

export const acceptanceRefused: FaultKind = {
  name: 'checks/acceptance-refused',
  severity: 'error',
  title: 'An error is accepted that cannot be accepted, or not by this role.',
}

export const kindsOfTheFrame: readonly FaultKind[] = [crashed, acceptanceUnused, acceptanceRefused]
