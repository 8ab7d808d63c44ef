import { reverseDialCalculator, rimAndFaceCalculator, twoPlaneOffsets } from './alignment/alignment.ts'
import { angularShimCalculator, indicatorSag, indicatorSwing } from './alignment/indicator.ts'
import { thermalGrowthCalculator, thermalTarget } from './alignment/thermal.ts'
import type { Calculator } from './calculator.ts'
import { effectiveTorqueLimits, nutFactorTest, preloadScatter } from './fasteners/preload-calculators.ts'
import { boltShear, threadStripping } from './fasteners/strength.ts'
import {
  boltTorqueTable,
  lockNutTorque,
  nutTorqueRange,
  shearTorqueCheck,
  torqueAllowances,
} from './fasteners/table-calculators.ts'
import { boltPreload, boltProofLoad, yieldPreload } from './fasteners/thread-calculators.ts'
import { threadProtrusion, threadStressArea } from './fasteners/thread-dimensions.ts'
import { tighteningOrder } from './fasteners/tightening-order.ts'
import {
  boltHeating,
  boltTension,
  boltTorque,
  torqueFromFriction,
  torqueThenAngle,
  turnOfNutAngle,
} from './fasteners/torque-calculators.ts'
import { wrenchExtension, wrenchGraduation, wrenchRange } from './fasteners/wrench.ts'
import { handlingCalculators } from './handling/handling-calculators.ts'
import {
  absolutePressure,
  cylinderForce,
  hydraulicPress,
  liquidColumn,
  pedalPress,
  pressureForceCalculator,
} from './hydraulics/pressure.ts'
import { blastDistance, storedGasEnergy } from './hydraulics/stored-energy.ts'
import { accumulatorOil, oilCompression } from './hydraulics/stored-liquid.ts'
import { flywheelEnergy, raisedMassEnergy, springEnergyCalculator } from './hydraulics/stored-mechanical.ts'
import { chainCalculators } from './lifting/chain-calculators.ts'
import { gearCalculators } from './lifting/gear-calculators.ts'
import { loadCalculators } from './lifting/load-calculators.ts'
import { slingCalculators } from './lifting/sling-calculators.ts'
import { accuracyRatio, decisionRule, relativeUncertaintyCalculator } from './measurement/decision.ts'
import { dualDimension, roundedSumCalculator } from './measurement/printed-figures.ts'
import { combinedUncertainty, halfWidthUncertainty, micrometerReading } from './measurement/uncertainty.ts'
import { scheduleCalculators } from './schedule/schedule-calculators.ts'
import { supportCalculators } from './support/support-calculators.ts'
import { thresholdCalculators } from './thresholds/threshold-calculators.ts'
import { workCalculators } from './thresholds/work-calculators.ts'
import { beltDeflectionCalculator, beltDeflectionForce, beltForceRange, beltTension } from './wear/belt.ts'
import {
  chainAllowance,
  chainElongationCalculator,
  chainWearLimitCalculator,
  leafChainTableCalculator,
} from './wear/chain.ts'
import { chainLength, chainPitch, chainSlack, sprocketDiameter } from './wear/chain-drive.ts'
import { thrustWasher, thrustWasherRow } from './wear/thrust-washer.ts'
import { wearTrend } from './wear/trend.ts'
import {
  fitClearance,
  limitCheck,
  roundness,
  shaftBend,
  sideDifference,
  wearLimitSide,
  wearState,
} from './wear/wear.ts'

/** Every calculator, a topic at a time. */
export const calculators: readonly Calculator[] = [
  // fasteners
  threadStripping,
  boltShear,
  lockNutTorque,
  nutTorqueRange,
  boltTorqueTable,
  torqueAllowances,
  shearTorqueCheck,
  threadStressArea,
  boltProofLoad,
  boltPreload,
  threadProtrusion,
  yieldPreload,
  tighteningOrder,
  boltTorque,
  boltTension,
  nutFactorTest,
  preloadScatter,
  effectiveTorqueLimits,
  turnOfNutAngle,
  torqueThenAngle,
  boltHeating,
  torqueFromFriction,
  wrenchExtension,
  wrenchRange,
  wrenchGraduation,
  // hydraulics
  pressureForceCalculator,
  hydraulicPress,
  pedalPress,
  cylinderForce,
  absolutePressure,
  liquidColumn,
  storedGasEnergy,
  blastDistance,
  oilCompression,
  accumulatorOil,
  springEnergyCalculator,
  raisedMassEnergy,
  flywheelEnergy,
  // wear
  beltDeflectionCalculator,
  beltDeflectionForce,
  beltForceRange,
  beltTension,
  chainElongationCalculator,
  chainAllowance,
  leafChainTableCalculator,
  chainWearLimitCalculator,
  chainSlack,
  chainLength,
  sprocketDiameter,
  chainPitch,
  wearTrend,
  fitClearance,
  wearState,
  wearLimitSide,
  roundness,
  shaftBend,
  limitCheck,
  thrustWasher,
  thrustWasherRow,
  sideDifference,
  // alignment
  rimAndFaceCalculator,
  twoPlaneOffsets,
  reverseDialCalculator,
  indicatorSag,
  angularShimCalculator,
  indicatorSwing,
  thermalGrowthCalculator,
  thermalTarget,
  // measurement
  decisionRule,
  accuracyRatio,
  dualDimension,
  roundedSumCalculator,
  relativeUncertaintyCalculator,
  combinedUncertainty,
  halfWidthUncertainty,
  micrometerReading,
  ...loadCalculators,
  ...slingCalculators,
  ...gearCalculators,
  ...chainCalculators,
  ...supportCalculators,
  ...handlingCalculators,
  ...scheduleCalculators,
  ...thresholdCalculators,
  ...workCalculators,
]
