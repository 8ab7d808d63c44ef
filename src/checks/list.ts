import type { FaultKind } from '../findings/finding.ts'
import type { Check } from './check.ts'
import { figureWithoutDescription } from './document/figure-without-description.ts'
import { issuedUnapproved } from './document/issued-unapproved.ts'
import { noSuchDate } from './document/no-such-date.ts'
import { numberUnusable } from './document/number-unusable.ts'
import { phaseWithoutSteps } from './document/phase-without-steps.ts'
import { valueMissing } from './document/value-missing.ts'
import { valueToFill } from './document/value-to-fill.ts'
import { branchGap } from './flow/branch-gap.ts'
import { branchOverlap } from './flow/branch-overlap.ts'
import { decideNotLast } from './flow/decide-not-last.ts'
import { endless } from './flow/endless.ts'
import { energyUndeclared } from './flow/energy-undeclared.ts'
import { exposed } from './flow/exposed.ts'
import { forbiddenTogether } from './flow/forbidden-together.ts'
import { guardOffAtStart } from './flow/guard-off-at-start.ts'
import { leftSnug } from './flow/left-snug.ts'
import { lockUnpaired } from './flow/lock-unpaired.ts'
import { lockoutOrder } from './flow/lockout-order.ts'
import { needUnmet } from './flow/need-unmet.ts'
import { notProved } from './flow/not-proved.ts'
import { notPutBack } from './flow/not-put-back.ts'
import { proofBypassed } from './flow/proof-bypassed.ts'
import { proofLapsed } from './flow/proof-lapsed.ts'
import { proofMissing } from './flow/proof-missing.ts'
import { proofStale } from './flow/proof-stale.ts'
import { readingMissing } from './flow/reading-missing.ts'
import { readingStale } from './flow/reading-stale.ts'
import { resumeUnproved } from './flow/resume-unproved.ts'
import { signerNotIndependent } from './flow/signer-not-independent.ts'
import { spanBroken } from './flow/span-broken.ts'
import { stopUnsafe } from './flow/stop-unsafe.ts'
import { undeclared } from './flow/undeclared.ts'
import { unheld } from './flow/unheld.ts'
import { unreachable } from './flow/unreachable.ts'
import { zoneNotCleared } from './flow/zone-not-cleared.ts'
import { zoneUnnamed } from './flow/zone-unnamed.ts'
import { zoneUnsafe } from './flow/zone-unsafe.ts'
import { kindsOfTheFrame } from './frame-kinds.ts'
import { messageIncomplete } from './hazards/message-incomplete.ts'
import { hazardNeverReferred } from './hazards/never-referred.ts'
import { pleaForCare } from './hazards/plea-for-care.ts'
import { signerMayBeDoer } from './holds/signer-may-be-doer.ts'
import { pairDoesNotConvert } from './numbers/pair-does-not-convert.ts'
import { proseAgainstBlock } from './numbers/prose-against-block.ts'
import { unitAmbiguous } from './numbers/unit-ambiguous.ts'
import { conditionNeverMet } from './readings/condition-never-met.ts'
import { digitsBeyondInstrument } from './readings/digits-beyond-instrument.ts'
import { formulaMixesKinds } from './readings/formula-mixes-kinds.ts'
import { formulaUnreadable } from './readings/formula-unreadable.ts'
import { instrumentOfAnotherKind } from './readings/instrument-of-another-kind.ts'
import { instrumentOutOfRange } from './readings/instrument-out-of-range.ts'
import { instrumentTooCoarse } from './readings/instrument-too-coarse.ts'
import { instrumentTooInaccurate } from './readings/instrument-too-inaccurate.ts'
import { limitNeverMet } from './readings/limit-never-met.ts'
import { limitWithoutConsequence } from './readings/limit-without-consequence.ts'
import { limitWithoutInstrument } from './readings/limit-without-instrument.ts'
import { limitsCrossed } from './readings/limits-crossed.ts'
import { nominalWithoutTolerance } from './readings/nominal-without-tolerance.ts'
import { unitOfAnotherKind } from './readings/unit-of-another-kind.ts'
import { unknownHazard } from './references/unknown-hazard.ts'
import { unknownReading } from './references/unknown-reading.ts'
import { unknownRole } from './references/unknown-role.ts'
import { unknownState } from './references/unknown-state.ts'
import { unknownStateValue } from './references/unknown-state-value.ts'
import { unknownVariant } from './references/unknown-variant.ts'
import { unknownZone } from './references/unknown-zone.ts'
import { neverUsed } from './resources/never-used.ts'
import { notListed } from './resources/not-listed.ts'
import { refitWrittenTwice } from './restoration/refit-written-twice.ts'
import { torqueIncomplete } from './torque/incomplete.ts'
import { sentenceTooLong } from './wording/sentence-too-long.ts'

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

  // flow: every way through the work
  branchGap,
  branchOverlap,
  decideNotLast,
  endless,
  energyUndeclared,
  exposed,
  forbiddenTogether,
  guardOffAtStart,
  leftSnug,
  lockUnpaired,
  lockoutOrder,
  needUnmet,
  notProved,
  notPutBack,
  proofBypassed,
  proofLapsed,
  proofMissing,
  proofStale,
  readingMissing,
  readingStale,
  resumeUnproved,
  signerNotIndependent,
  spanBroken,
  stopUnsafe,
  undeclared,
  unheld,
  unreachable,
  zoneNotCleared,
  zoneUnnamed,
  zoneUnsafe,

  // hazards: safety messages
  messageIncomplete,
  hazardNeverReferred,
  pleaForCare,

  // holds: who signs for what
  signerMayBeDoer,

  // numbers: what is written twice, or can be read in two ways
  pairDoesNotConvert,
  proseAgainstBlock,
  unitAmbiguous,

  // readings: limits and what follows from them
  digitsBeyondInstrument,
  conditionNeverMet,
  formulaMixesKinds,
  instrumentOfAnotherKind,
  instrumentTooCoarse,
  instrumentTooInaccurate,
  limitWithoutInstrument,
  unitOfAnotherKind,
  formulaUnreadable,
  instrumentOutOfRange,
  limitNeverMet,
  limitWithoutConsequence,
  limitsCrossed,
  nominalWithoutTolerance,

  // torque
  torqueIncomplete,

  // resources: what is fetched
  neverUsed,
  notListed,

  // restoration: how the machine is given back
  refitWrittenTwice,

  // wording
  sentenceTooLong,
]

/** Every kind of finding that this floor can report. */
export const kindsOfChecks: readonly FaultKind[] = [...kindsOfTheFrame, ...checks]

/** Names that stood here once. They are never given out again, so that an old acceptance cannot hide a new fault. */
export const retiredNames: readonly string[] = [
  'flow/branch-not-chosen',
  'flow/redo-without-end',
  'holds/signed-by-doer',
  'lockout/lock-left-on',
  'restoration/left-in-place',
  'restoration/not-as-at-end',
  'restoration/part-not-refitted',
  'torque/snug-never-tightened',
  'zones/whereabouts-unsaid',
]
