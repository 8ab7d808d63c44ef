import type { FaultKind } from '../findings/finding.ts'
import type { Check } from './check.ts'
import { figureWithoutDescription } from './document/figure-without-description.ts'
import { issuedUnapproved } from './document/issued-unapproved.ts'
import { noSuchDate } from './document/no-such-date.ts'
import { numberUnusable } from './document/number-unusable.ts'
import { phaseWithoutSteps } from './document/phase-without-steps.ts'
import { valueMissing } from './document/value-missing.ts'
import { valueToFill } from './document/value-to-fill.ts'
import { branchNotChosen } from './flow/branch-not-chosen.ts'
import { decideNotLast } from './flow/decide-not-last.ts'
import { redoWithoutEnd } from './flow/redo-without-end.ts'
import { kindsOfTheFrame } from './frame-kinds.ts'
import { messageIncomplete } from './hazards/message-incomplete.ts'
import { hazardNeverReferred } from './hazards/never-referred.ts'
import { pleaForCare } from './hazards/plea-for-care.ts'
import { signedByDoer } from './holds/signed-by-doer.ts'
import { signerMayBeDoer } from './holds/signer-may-be-doer.ts'
import { lockLeftOn } from './lockout/lock-left-on.ts'
import { formulaUnreadable } from './readings/formula-unreadable.ts'
import { instrumentOutOfRange } from './readings/instrument-out-of-range.ts'
import { limitNeverMet } from './readings/limit-never-met.ts'
import { limitWithoutConsequence } from './readings/limit-without-consequence.ts'
import { limitsCrossed } from './readings/limits-crossed.ts'
import { nominalWithoutTolerance } from './readings/nominal-without-tolerance.ts'
import { unknownHazard } from './references/unknown-hazard.ts'
import { unknownReading } from './references/unknown-reading.ts'
import { unknownRole } from './references/unknown-role.ts'
import { unknownState } from './references/unknown-state.ts'
import { unknownStateValue } from './references/unknown-state-value.ts'
import { unknownVariant } from './references/unknown-variant.ts'
import { unknownZone } from './references/unknown-zone.ts'
import { neverUsed } from './resources/never-used.ts'
import { notListed } from './resources/not-listed.ts'
import { leftInPlace } from './restoration/left-in-place.ts'
import { notAsAtEnd } from './restoration/not-as-at-end.ts'
import { partNotRefitted } from './restoration/part-not-refitted.ts'
import { refitWrittenTwice } from './restoration/refit-written-twice.ts'
import { torqueIncomplete } from './torque/incomplete.ts'
import { snugNeverTightened } from './torque/snug-never-tightened.ts'
import { sentenceTooLong } from './wording/sentence-too-long.ts'
import { whereaboutsUnsaid } from './zones/whereabouts-unsaid.ts'

/** Every check there is, by group. To add one: write its two files, then a line here. */
export const checks: readonly Check[] = [
  // document: what the sheet itself needs
  figureWithoutDescription,
  issuedUnapproved,
  noSuchDate,
  numberUnusable,
  phaseWithoutSteps,
  valueMissing,
  valueToFill,

  // references: names that nothing carries
  unknownHazard,
  unknownReading,
  unknownRole,
  unknownState,
  unknownStateValue,
  unknownVariant,
  unknownZone,

  // flow: what can follow what
  branchNotChosen,
  decideNotLast,
  redoWithoutEnd,

  // zones: where people are
  whereaboutsUnsaid,

  // lockout: energy and locks
  lockLeftOn,

  // hazards: safety messages
  messageIncomplete,
  hazardNeverReferred,
  pleaForCare,

  // holds: who signs for what
  signedByDoer,
  signerMayBeDoer,

  // readings: limits and what follows from them
  formulaUnreadable,
  instrumentOutOfRange,
  limitNeverMet,
  limitWithoutConsequence,
  limitsCrossed,
  nominalWithoutTolerance,

  // torque
  torqueIncomplete,
  snugNeverTightened,

  // resources: what is fetched
  neverUsed,
  notListed,

  // restoration: how the machine is given back
  leftInPlace,
  notAsAtEnd,
  partNotRefitted,
  refitWrittenTwice,

  // wording
  sentenceTooLong,
]

/** Every kind of finding that this floor can report. */
export const kindsOfChecks: readonly FaultKind[] = [...kindsOfTheFrame, ...checks]

/** Names that stood here once. They are never given out again, so that an old acceptance cannot hide a new fault. */
export const retiredNames: readonly string[] = []
