import type { FaultKind } from '../findings/finding.ts'
import { andOrMixed } from './branching/and-or-mixed.ts'
import { chainedRedo } from './branching/chained-redo.ts'
import { choiceInASentence } from './branching/choice-in-a-sentence.ts'
import { commaMissing } from './branching/comma-missing.ts'
import { freeOrderInWords } from './branching/free-order-in-words.ts'
import { nestedTooDeep } from './branching/nested-too-deep.ts'
import { watchWithoutEnd } from './branching/watch-without-end.ts'
import type { Check } from './check.ts'
import { entryUnguarded } from './confined-space/entry-unguarded.ts'
import { zoneWithoutEntry } from './confined-space/zone-without-entry.ts'
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
import { handledAboveSiteLimit } from './handling/above-site-limit.ts'
import { heavyByHand } from './handling/heavy.ts'
import { tooHeavyByHand } from './handling/too-heavy.ts'
import { actionHidden } from './hazards/action-hidden.ts'
import { classMissing } from './hazards/class-missing.ts'
import { dangerEverywhere } from './hazards/danger-everywhere.ts'
import { messageInProse } from './hazards/message-in-prose.ts'
import { messageIncomplete } from './hazards/message-incomplete.ts'
import { messageLong } from './hazards/message-long.ts'
import { messageRepeated } from './hazards/message-repeated.ts'
import { hazardNeverReferred } from './hazards/never-referred.ts'
import { noteInstructs } from './hazards/note-instructs.ts'
import { pleaForCare } from './hazards/plea-for-care.ts'
import { protectionNotListed } from './hazards/protection-not-listed.ts'
import { responseMissing } from './hazards/response-missing.ts'
import { severalInOne } from './hazards/several-in-one.ts'
import { severityBelowWords } from './hazards/severity-below-words.ts'
import { holdInWordsOnly } from './holds/asked-in-words-only.ts'
import { criterionMissing } from './holds/criterion-missing.ts'
import { requiredHoldMissing } from './holds/required-hold-missing.ts'
import { sentenceBesideProof } from './holds/sentence-beside-proof.ts'
import { signerMayBeDoer } from './holds/signer-may-be-doer.ts'
import { verifyWithoutReading } from './holds/verify-without-reading.ts'
import { closedVolumeUnsaid } from './hot-work/closed-volume-unsaid.ts'
import { closedVolumeUntested } from './hot-work/closed-volume-untested.ts'
import { combustiblesNear } from './hot-work/combustibles-near.ts'
import { extinguisherMissing } from './hot-work/extinguisher-missing.ts'
import { hotWorkPermitMissing } from './hot-work/permit-missing.ts'
import { hotWorkInWordsOnly } from './hot-work/told-in-words-only.ts'
import { watchHasOtherWork } from './hot-work/watch-has-other-work.ts'
import { watchMissing } from './hot-work/watch-missing.ts'
import { watchTooShort } from './hot-work/watch-too-short.ts'
import { angleBaseMissing } from './lifting/angle-base-missing.ts'
import { chainWornOut } from './lifting/chain-worn-out.ts'
import { liftDataIncomplete } from './lifting/data-incomplete.ts'
import { edgesUnpadded } from './lifting/edges-unpadded.ts'
import { eyeboltSidePull } from './lifting/eyebolt-side-pull.ts'
import { gearWithoutCapacity } from './lifting/gear-without-capacity.ts'
import { handsAtTheSling } from './lifting/hands-at-the-sling.ts'
import { landingUnsaid } from './lifting/landing-unsaid.ts'
import { leftOnJack } from './lifting/left-on-jack.ts'
import { legsAlikeOffCentre } from './lifting/legs-alike-off-centre.ts'
import { legsFlat } from './lifting/legs-flat.ts'
import { legsMisfit } from './lifting/legs-misfit.ts'
import { legsTooFlat } from './lifting/legs-too-flat.ts'
import { legsUndetermined } from './lifting/legs-undetermined.ts'
import { nobodyDirects } from './lifting/nobody-directs.ts'
import { nothingInHand } from './lifting/nothing-in-hand.ts'
import { liftOverCapacity } from './lifting/over-capacity.ts'
import { riggingNotInspected } from './lifting/rigging-not-inspected.ts'
import { sketchMissing } from './lifting/sketch-missing.ts'
import { tagAngleMissing } from './lifting/tag-angle-missing.ts'
import { slingTooHot } from './lifting/too-hot.ts'
import { trialLiftMissing } from './lifting/trial-lift-missing.ts'
import { weightWithoutAllowance } from './lifting/weight-without-allowance.ts'
import { energyLeftAsItIs } from './lockout/energy-left-as-it-is.ts'
import { energyWithoutLock } from './lockout/energy-without-lock.ts'
import { energyWithoutSize } from './lockout/energy-without-size.ts'
import { lockWithoutQualification } from './lockout/lock-without-qualification.ts'
import { partNotBlocked } from './lockout/part-not-blocked.ts'
import { peopleNotTold } from './lockout/people-not-told.ts'
import { releaseUnproved } from './lockout/release-unproved.ts'
import { releaseWithoutMeans } from './lockout/release-without-means.ts'
import { reviewTooLate } from './lockout/review-too-late.ts'
import { testerNotProven } from './lockout/tester-not-proven.ts'
import { tryOutIncomplete } from './lockout/try-out-incomplete.ts'
import { workerWithoutLock } from './lockout/worker-without-lock.ts'
import { decimalMisspelt } from './numbers/decimal-misspelt.ts'
import { figureWithoutUnit } from './numbers/figure-without-unit.ts'
import { pairDoesNotConvert } from './numbers/pair-does-not-convert.ts'
import { proseAgainstBlock } from './numbers/prose-against-block.ts'
import { repeatWithoutEnd } from './numbers/repeat-without-end.ts'
import { timeWithoutClock } from './numbers/time-without-clock.ts'
import { unitAmbiguous } from './numbers/unit-ambiguous.ts'
import { unitMisspelt } from './numbers/unit-misspelt.ts'
import { workedOutInHead } from './numbers/worked-out-in-head.ts'
import { phaseTooLong } from './place-keeping/phase-too-long.ts'
import { sendsElsewhere } from './prerequisites/sends-elsewhere.ts'
import { unqualifiedForProcess } from './prerequisites/unqualified-for-process.ts'
import { emptinessUnshown } from './pressure/emptiness-unshown.ts'
import { pressureFiguresMisfit } from './pressure/figures-misfit.ts'
import { gaugeEndsBelow } from './pressure/gauge-ends-below.ts'
import { gaugeUnread } from './pressure/gauge-unread.ts'
import { limitLetsItStay } from './pressure/limit-lets-it-stay.ts'
import { outletUnsaid } from './pressure/outlet-unsaid.ts'
import { peopleUnplaced } from './pressure/people-unplaced.ts'
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
import { lapsesBeforeDone } from './schedule/lapses-before-done.ts'
import { waitCrossed } from './schedule/wait-crossed.ts'
import { supportBuildMisfit } from './support/build-misfit.ts'
import { supportOverCapacity } from './support/over-capacity.ts'
import { sharesOff } from './support/shares-off.ts'
import { airLimitWide } from './thresholds/air-limit-wide.ts'
import { airReadingMissing } from './thresholds/air-reading-missing.ts'
import { fallUnprotected } from './thresholds/fall-unprotected.ts'
import { noiseUnprotected } from './thresholds/noise-unprotected.ts'
import { aboveProof } from './torque/above-proof.ts'
import { anglesDoNotAdd } from './torque/angles-do-not-add.ts'
import { extensionNotCounted } from './torque/extension-not-counted.ts'
import { figureOfOtherLubrication } from './torque/figure-of-other-lubrication.ts'
import { gradeTooLow } from './torque/grade-too-low.ts'
import { torqueIncomplete } from './torque/incomplete.ts'
import { oneSided } from './torque/one-sided.ts'
import { rectangleMisfits } from './torque/rectangle-misfits.ts'
import { releaseMissing } from './torque/release-missing.ts'
import { roundsEndShort } from './torque/rounds-end-short.ts'
import { settingOutOfRange } from './torque/setting-out-of-range.ts'
import { wrenchTooLarge } from './torque/wrench-too-large.ts'
import { wearLimitOff } from './wear/limit-off.ts'
import { wearLogUnreadable } from './wear/log-unreadable.ts'
import { wearReadingMissing } from './wear/reading-missing.ts'
import { abbreviationUndeclared } from './wording/abbreviation-undeclared.ts'
import { articlesMissing } from './wording/articles-missing.ts'
import { conditionLast } from './wording/condition-last.ts'
import { descriptionTooLong } from './wording/description-too-long.ts'
import { doubleNegative } from './wording/double-negative.ts'
import { expectationUnsaid } from './wording/expectation-unsaid.ts'
import { judgedAndChanged } from './wording/judged-and-changed.ts'
import { judgedWithoutCriterion } from './wording/judged-without-criterion.ts'
import { longCapitals } from './wording/long-capitals.ts'
import { longList } from './wording/long-list.ts'
import { longOnAverage } from './wording/long-on-average.ts'
import { nounString } from './wording/noun-string.ts'
import { passiveInstruction } from './wording/passive-instruction.ts'
import { reasonInStep } from './wording/reason-in-step.ts'
import { recordWithoutBlank } from './wording/record-without-blank.ts'
import { sentenceTooLong } from './wording/sentence-too-long.ts'
import { severalActions } from './wording/several-actions.ts'
import { slashChoice } from './wording/slash-choice.ts'
import { twoNames } from './wording/two-names.ts'
import { unclearVerb } from './wording/unclear-verb.ts'
import { vagueWord } from './wording/vague-word.ts'
import { verbNotFirst } from './wording/verb-not-first.ts'

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
  actionHidden,
  classMissing,
  dangerEverywhere,
  messageInProse,
  messageLong,
  messageRepeated,
  noteInstructs,
  protectionNotListed,
  responseMissing,
  severalInOne,
  severityBelowWords,

  // holds: who signs for what
  signerMayBeDoer,
  requiredHoldMissing,
  holdInWordsOnly,
  criterionMissing,
  sentenceBesideProof,
  verifyWithoutReading,

  // lockout: energies held off
  energyLeftAsItIs,
  energyWithoutLock,
  energyWithoutSize,
  lockWithoutQualification,
  partNotBlocked,
  peopleNotTold,
  releaseUnproved,
  releaseWithoutMeans,
  reviewTooLate,
  testerNotProven,
  tryOutIncomplete,
  workerWithoutLock,

  // hot-work: flame, arc and sparks
  closedVolumeUnsaid,
  closedVolumeUntested,
  combustiblesNear,
  extinguisherMissing,
  hotWorkPermitMissing,
  hotWorkInWordsOnly,
  watchHasOtherWork,
  watchMissing,
  watchTooShort,

  // confined-space: who goes in
  entryUnguarded,
  zoneWithoutEntry,

  // numbers: what is written twice, or can be read in two ways
  pairDoesNotConvert,
  proseAgainstBlock,
  unitAmbiguous,
  decimalMisspelt,
  figureWithoutUnit,
  repeatWithoutEnd,
  timeWithoutClock,
  unitMisspelt,
  workedOutInHead,

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
  rectangleMisfits,
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
  tagAngleMissing,
  chainWornOut,
  slingTooHot,
  liftOverCapacity,
  weightWithoutAllowance,
  liftDataIncomplete,
  edgesUnpadded,
  gearWithoutCapacity,
  handsAtTheSling,
  landingUnsaid,
  leftOnJack,
  nobodyDirects,
  riggingNotInspected,
  sketchMissing,
  trialLiftMissing,

  // support: what stands on what
  supportBuildMisfit,
  supportOverCapacity,
  sharesOff,

  // pressure: what a step that lets a stored energy out must say
  emptinessUnshown,
  pressureFiguresMisfit,
  gaugeEndsBelow,
  gaugeUnread,
  limitLetsItStay,
  outletUnsaid,
  peopleUnplaced,

  // wear: what worn parts are judged by
  wearLimitOff,
  wearLogUnreadable,
  wearReadingMissing,

  // thresholds: what published rules ask at heights, noise and air
  airLimitWide,
  airReadingMissing,
  fallUnprotected,
  noiseUnprotected,

  // handling: what people lift by hand
  handledAboveSiteLimit,
  heavyByHand,
  tooHeavyByHand,

  // schedule: times that cannot be kept
  lapsesBeforeDone,
  waitCrossed,

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
  abbreviationUndeclared,
  articlesMissing,
  conditionLast,
  descriptionTooLong,
  doubleNegative,
  expectationUnsaid,
  judgedAndChanged,
  judgedWithoutCriterion,
  longList,
  longOnAverage,
  nounString,
  passiveInstruction,
  reasonInStep,
  recordWithoutBlank,
  severalActions,
  slashChoice,
  twoNames,
  unclearVerb,
  vagueWord,
  verbNotFirst,
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
