import { chainBelt } from './mapping/chain-belt.ts'
import { fasteners } from './mapping/fasteners.ts'
import { hydraulics } from './mapping/hydraulics.ts'
import { liftingNiosh } from './mapping/lifting-niosh.ts'
import { measurement } from './mapping/measurement.ts'
import { rigging } from './mapping/rigging.ts'
import { safetyRules } from './mapping/safety-rules.ts'
import { timeCrew } from './mapping/time-crew.ts'
import { units } from './mapping/units.ts'
import type { CaseMapping } from './mapping.ts'

/** By family, as the files name it. */
export const mappings: Readonly<Record<string, readonly CaseMapping[]>> = {
  chain_belt: chainBelt,
  fasteners,
  hydraulics,
  lifting_niosh: liftingNiosh,
  measurement,
  rigging,
  safety_rules: safetyRules,
  time_crew: timeCrew,
  units,
}
