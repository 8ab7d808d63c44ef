import type { FaultKind } from '../findings/finding.ts'
import { andOrMixed } from './branching/and-or-mixed.ts'
import { chainedRedo } from './branching/chained-redo.ts'
import { choiceInASentence } from './branching/choice-in-a-sentence.ts'
import { commaMissing } from './branching/comma-missing.ts'
import { freeOrderInWords } from './branching/free-order-in-words.ts'
import { nestedTooDeep } from './branching/nested-too-deep.ts'
import { watchWithoutEnd } from './branching/watch-without-end.ts'
import type { Check } from './check.ts'
import { figureWithoutDescription } from './document/figure-without-description.ts'
import { issuedUnapproved } from './document/issued-unapproved.ts'
import { noSuchDate } from './document/no-such-date.ts'
import { numberUnusable } from './document/number-unusable.ts'
import { phaseWithoutSteps } from './document/phase-without-steps.ts'
import { purposeMissing } from './document/purpose-missing.ts'
import { reviewNotPlanned } from './document/review-not-planned.ts'
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
import { aboveSiteLimit } from './handling/above-site-limit.ts'
import { heavyByHand } from './handling/heavy.ts'
import { tooHeavyByHand } from './handling/too-heavy.ts'
import { messageIncomplete } from './hazards/message-incomplete.ts'
import { hazardNeverReferred } from './hazards/never-referred.ts'
import { pleaForCare } from './hazards/plea-for-care.ts'
import { requiredHoldMissing } from './holds/required-hold-missing.ts'
import { signerMayBeDoer } from './holds/signer-may-be-doer.ts'
import { watchBelowRule } from './hot-work/watch-below-rule.ts'
import { angleBaseMissing } from './lifting/angle-base-missing.ts'
import { eyeboltSidePull } from './lifting/eyebolt-side-pull.ts'
import { heavierThanHandLift } from './lifting/heavier-than-hand-lift.ts'
import { legsAlikeOffCentre } from './lifting/legs-alike-off-centre.ts'
import { legsFlat } from './lifting/legs-flat.ts'
import { legsMisfit } from './lifting/legs-misfit.ts'
import { legsTooFlat } from './lifting/legs-too-flat.ts'
import { legsUndetermined } from './lifting/legs-undetermined.ts'
import { nothingInHand } from './lifting/nothing-in-hand.ts'
import { liftOverCapacity } from './lifting/over-capacity.ts'
import { weightWithoutAllowance } from './lifting/weight-without-allowance.ts'
import { pairDoesNotConvert } from './numbers/pair-does-not-convert.ts'
import { proseAgainstBlock } from './numbers/prose-against-block.ts'
import { unitAmbiguous } from './numbers/unit-ambiguous.ts'
import { phaseTooLong } from './place-keeping/phase-too-long.ts'
import { sendsElsewhere } from './prerequisites/sends-elsewhere.ts'
import { unqualifiedForProcess } from './prerequisites/unqualified-for-process.ts'
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
import { partWithoutNumber } from './resources/part-without-number.ts'
import { tooFewListed } from './resources/too-few-listed.ts'
import { notTestedAfter } from './restoration/not-tested-after.ts'
import { refitWrittenTwice } from './restoration/refit-written-twice.ts'
import { supportOverCapacity } from './support/over-capacity.ts'
import { sharesOff } from './support/shares-off.ts'
import { aboveProof } from './torque/above-proof.ts'
import { anglesDoNotAdd } from './torque/angles-do-not-add.ts'
import { extensionNotCounted } from './torque/extension-not-counted.ts'
import { figureOfOtherLubrication } from './torque/figure-of-other-lubrication.ts'
import { gradeTooLow } from './torque/grade-too-low.ts'
import { torqueIncomplete } from './torque/incomplete.ts'
import { oneSided } from './torque/one-sided.ts'
import { releaseMissing } from './torque/release-missing.ts'
import { roundsEndShort } from './torque/rounds-end-short.ts'
import { settingOutOfRange } from './torque/setting-out-of-range.ts'
import { wrenchTooLarge } from './torque/wrench-too-large.ts'
import { longCapitals } from './wording/long-capitals.ts'
import { sentenceTooLong } from './wording/sentence-too-long.ts'

/** Every check there is, by group. To add one: write its two files, then a line here. */
export const checks: readonly Check[] = [
  // document: what the sheet itself needs
  figureWithoutDescription,
  issuedUnapproved,
  noSuchDate,
  numberUnusable,
  phaseWithoutSteps,
  purposeMissing,
  reviewNotPlanned,
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
  requiredHoldMissing,

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

  // torque: what a joint takes, and what the wrench is set to
  aboveProof,
  anglesDoNotAdd,
  extensionNotCounted,
  figureOfOtherLubrication,
  gradeTooLow,
  torqueIncomplete,
  oneSided,
  releaseMissing,
  roundsEndShort,
  settingOutOfRange,
  wrenchTooLarge,

  // lifting: what a lift asks of its gear
  angleBaseMissing,
  eyeboltSidePull,
  legsAlikeOffCentre,
  legsFlat,
  legsMisfit,
  legsTooFlat,
  legsUndetermined,
  nothingInHand,
  liftOverCapacity,
  weightWithoutAllowance,

  // support: what stands on what
  supportOverCapacity,
  sharesOff,

  // handling: what people lift by hand
  aboveSiteLimit,
  heavyByHand,
  tooHeavyByHand,

  // hot work
  watchBelowRule,

  // resources: what is fetched
  neverUsed,
  notListed,
  partWithoutNumber,
  tooFewListed,

  // prerequisites: what must be there before the work begins
  sendsElsewhere,
  unqualifiedForProcess,

  // restoration: how the machine is given back
  refitWrittenTwice,
  notTestedAfter,

  // branching: conditions and alternatives in words
  andOrMixed,
  chainedRedo,
  choiceInASentence,
  commaMissing,
  freeOrderInWords,
  nestedTooDeep,
  watchWithoutEnd,

  // place-keeping
  phaseTooLong,

  // wording
  sentenceTooLong,
  longCapitals,
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
