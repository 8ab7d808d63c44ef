import type { StepFile } from '../step-file/step-file.ts'
import { holdLabels } from './hold-text.ts'
import { zoneInWords } from './people-text.ts'
import { claimsInWords } from './state-text.ts'
import { allSteps, type HazardSheet, type ZoneSheet } from './step-file-parts.ts'

export interface KillLine {
  /** `danger` or `warning`; null for a place that is only safe in some states. */
  readonly signalWord: 'danger' | 'warning' | null
  readonly what: string
  readonly held: string
  /** `H2 at 2.6`, or where it stands if no signature proves it. */
  readonly proved: string
  readonly provedBySignature: boolean
}

export interface WhatCanKill {
  readonly lines: readonly KillLine[]
  /** How many more stand only at their steps. */
  readonly more: number
}

/**
 * The worst of the job for the first page: hazards with the signal word DANGER, then WARNING, in the order they are
 * met; then places that are safe in some states only, while lines are left. Each with what holds it and where that is proved.
 */
export function whatCanKill(stepFile: StepFile, atMost = 5): WhatCanKill {
  const met = hazardOrder(stepFile)
  const deadly = (['danger', 'warning'] as const).flatMap((word) =>
    stepFile.hazards
      .filter((hazard) => hazard.signalWord === word && met.has(hazard.id))
      .sort((a, b) => (met.get(a.id)?.order ?? 0) - (met.get(b.id)?.order ?? 0))
      .map((hazard) => hazardLine(stepFile, hazard, met.get(hazard.id)?.number ?? '')),
  )
  const places = stepFile.zones
    .filter((zone) => zone.safeWhen.length > 0 && isFirstOfItsName(stepFile, zone))
    .map((zone) => zoneLine(stepFile, zone))
  const lines = [...deadly, ...places].slice(0, atMost)
  return { lines, more: Math.max(0, deadly.length - atMost) }
}

/** Where each hazard is first met. */
function hazardOrder(stepFile: StepFile): ReadonlyMap<string, { order: number; number: string }> {
  const met = new Map<string, { order: number; number: string }>()
  for (const phase of stepFile.phases) {
    for (const hazard of phase.hazards) {
      if (!met.has(hazard)) met.set(hazard, { order: met.size, number: phase.steps[0]?.number ?? phase.number })
    }
    for (const step of allSteps(phase.steps)) {
      for (const hazard of step.hazards) if (!met.has(hazard)) met.set(hazard, { order: met.size, number: step.number })
    }
  }
  return met
}

function hazardLine(stepFile: StepFile, hazard: HazardSheet, number: string): KillLine {
  const labels = holdLabels(stepFile)
  const guard = stepFile.holds.find((hold) => hold.hazards.includes(hazard.id) && hold.kind !== 'review')
  return {
    signalWord: hazard.signalWord === 'danger' ? 'danger' : 'warning',
    what: `${hazard.hazard}: ${hazard.consequence}`,
    held: hazard.controls.length > 0 ? hazard.controls.join('; ') : hazard.avoid,
    proved: guard ? `${labels.get(guard.hold) ?? ''} at ${guard.number}` : `no signature; stands at ${number}`,
    provedBySignature: guard !== undefined,
  }
}

function zoneLine(stepFile: StepFile, zone: ZoneSheet): KillLine {
  const labels = holdLabels(stepFile)
  const guards = stepFile.holds.filter((hold) => hold.zones.includes(zone.id) && hold.proves.length > 0)
  return {
    signalWord: null,
    what: `In ${zoneInWords(stepFile, zone.id)}`,
    held: `only when ${claimsInWords(stepFile, zone.safeWhen)}`,
    proved:
      guards.length > 0
        ? guards.map((hold) => `${labels.get(hold.hold) ?? ''} at ${hold.number}`).join(', ')
        : 'no signature',
    provedBySignature: guards.length > 0,
  }
}

/** Left and right are one line. */
function isFirstOfItsName(stepFile: StepFile, zone: ZoneSheet): boolean {
  return stepFile.zones.find((candidate) => candidate.name === zone.name) === zone
}
