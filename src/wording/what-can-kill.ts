import type { StepFile } from '../step-file/step-file.ts'
import { holdLabels } from './hold-text.ts'
import { inPlace, zoneInWords } from './people-text.ts'
import { type Proof, type Proofs, proofInWords, proofsBefore, proofsOf, proversByState } from './proof-trail.ts'
import { claimInWords, claimsInWords, inWords } from './state-text.ts'
import { allSteps, type HazardSheet, type PhaseSheet, type ZoneSheet } from './step-file-parts.ts'

export interface KillLine {
  /** Id of the hazard or place. */
  readonly id: string
  /** `danger` or `warning`; null for a place that is only safe in some states. */
  readonly signalWord: 'danger' | 'warning' | null
  readonly what: string
  readonly held: string
  /** `H2 at 2.6: axle on stands`, a reading or test, or that nothing proves it. */
  readonly proved: string
  readonly provedBySignature: boolean
  /** Whether anything proves it, a reading or test included. */
  readonly isProved: boolean
  /** Where the hazard is first met, or empty for a place. */
  readonly metAt: string
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
  const standing = proofsBefore(stepFile)
  const deadly = (['danger', 'warning'] as const).flatMap((word) =>
    stepFile.hazards
      .flatMap((hazard) => {
        const where = met.get(hazard.id)
        return hazard.signalWord === word && where ? [{ hazard, where }] : []
      })
      .sort((a, b) => deadliness(a.hazard) - deadliness(b.hazard) || a.where.order - b.where.order)
      .map(({ hazard, where }) => hazardLine(stepFile, hazard, where, standing.get(where.at))),
  )
  const places = stepFile.zones
    .filter((zone) => zone.safeWhen.length > 0 && isFirstOfItsName(stepFile, zone))
    .map((zone) => zoneLine(stepFile, zone))
  const lines = [...deadly, ...places].slice(0, atMost)
  return { lines, more: Math.max(0, deadly.length - atMost) }
}

/** Where a hazard is first met. */
interface Met {
  readonly order: number
  readonly phase: PhaseSheet
  /** Id of the step, or of the phase that names it. */
  readonly at: string
  readonly number: string
}

function hazardOrder(stepFile: StepFile): ReadonlyMap<string, Met> {
  const met = new Map<string, Met>()
  const meet = (hazard: string, phase: PhaseSheet, at: string, number: string) => {
    if (!met.has(hazard)) met.set(hazard, { order: met.size, phase, at, number })
  }
  for (const phase of stepFile.phases) {
    for (const hazard of phase.hazards) meet(hazard, phase, phase.id, phase.steps[0]?.number ?? phase.number)
    for (const step of allSteps(phase.steps)) {
      for (const hazard of step.hazards) meet(hazard, phase, step.id, step.number)
    }
  }
  return met
}

/** What kills stands before what maims. */
function deadliness(hazard: HazardSheet): number {
  return hazard.severity === 'death' ? 0 : 1
}

/** `Axle falls: crushes anyone below`, or two sentences where the author wrote sentences. */
function joined(hazard: string, consequence: string): string {
  return /[.!?]$/.test(hazard) ? `${hazard} ${consequence}` : `${hazard}: ${consequence}`
}

function hazardLine(stepFile: StepFile, hazard: HazardSheet, met: Met, standing: Proofs | undefined): KillLine {
  const proofs = proofsAgainst(stepFile, hazard, met, standing)
  const signed = proofs.some((proof) => proof.labels.length > 0)
  return {
    id: hazard.id,
    signalWord: hazard.signalWord === 'danger' ? 'danger' : 'warning',
    what: joined(hazard.hazard, hazard.consequence),
    held: hazard.controls.length > 0 ? hazard.controls.join('; ') : hazard.avoid,
    proved: proofs.length === 0 ? `nothing proves it; read it at ${met.number}` : whereProved(stepFile, proofs),
    provedBySignature: signed,
    isProved: proofs.length > 0,
    metAt: met.number,
  }
}

/** `H1 at 3.2: park brake on, chocks on; H2 at 4.5: axle on stands`. */
function whereProved(stepFile: StepFile, proofs: readonly Proof[]): string {
  const places = [...new Set(proofs.map(proofInWords))]
  return places
    .map((place) => {
      const claims = proofs.filter((proof) => proofInWords(proof) === place)
      return `${place}: ${claims.map((claim) => claimInWords(stepFile, claim)).join(', ')}`
    })
    .join('; ')
}

/**
 * A signature proves only what it says it proves. Where the phase in which the hazard is met changes states of the same
 * energy, those are what holds it, and only a proof taken of them afterwards counts: stands, not the tyres that were proved
 * before the jack went under. Where it changes none, the proofs that stand when the hazard is met count.
 */
function proofsAgainst(
  stepFile: StepFile,
  hazard: HazardSheet,
  met: Met,
  standing: Proofs | undefined,
): readonly Proof[] {
  if (hazard.energyClass === null) return []
  const side = met.phase.position?.values[0]?.text
  const ofThisEnergy = new Set(
    stepFile.states
      .filter((state) => state.energy === hazard.energyClass)
      .filter((state) => state.position === null || side === undefined || state.position === side)
      .map((state) => state.id),
  )
  const changedHere = allSteps(met.phase.steps)
    .flatMap((step) => step.sets.map((change) => change.state))
    .filter((state) => ofThisEnergy.has(state))
  if (changedHere.length === 0) return [...(standing?.values() ?? [])].filter((proof) => ofThisEnergy.has(proof.state))
  const proofs = proofsFrom(stepFile, met)
  return [...new Set(changedHere)].flatMap((state) => proofs.find((proof) => proof.state === state) ?? [])
}

/** Proofs taken from where the hazard is met, in the order of the print. */
function proofsFrom(stepFile: StepFile, met: Met): readonly Proof[] {
  const labels = holdLabels(stepFile)
  const steps = stepFile.phases.slice(stepFile.phases.indexOf(met.phase)).flatMap((phase) => allSteps(phase.steps))
  const first = Math.max(
    0,
    steps.findIndex((step) => step.id === met.at),
  )
  const provers = proversByState(stepFile)
  return steps.slice(first).flatMap((step) => proofsOf(step, labels, provers))
}

function zoneLine(stepFile: StepFile, zone: ZoneSheet): KillLine {
  const resting = zone.safeWhen.map(({ state }) => state)
  const signed = signedProofs(stepFile).filter(({ state }) => resting.includes(state))
  const numbers = [...new Set(signed.map(({ number }) => number))]
  const sides = stepFile.zones.filter((other) => other.name === zone.name).flatMap((other) => other.position ?? [])
  return {
    id: zone.id,
    signalWord: null,
    what:
      sides.length > 1
        ? `${inPlace(inWords(zone.name))}, ${sides.map(inWords).join(' or ')}: ${zone.what}`
        : inPlace(zoneInWords(stepFile, zone.id)),
    held: `only when ${claimsInWords(stepFile, zone.safeWhen)}`,
    proved:
      numbers.length === 0
        ? 'no signature'
        : numbers
            .map((number) => {
              const signs = signed.filter((proof) => proof.number === number).flatMap(({ labels }) => labels)
              return `${[...new Set(signs)].join('+')} at ${number}`
            })
            .join(', '),
    provedBySignature: numbers.length > 0,
    isProved: numbers.length > 0,
    metAt: '',
  }
}

/** A signature counts for a place only by what it proves itself: a witness beside it, or another role's line, proves nothing. */
function signedProofs(stepFile: StepFile): readonly Proof[] {
  const labels = holdLabels(stepFile)
  const provers = proversByState(stepFile)
  return stepFile.phases
    .flatMap(({ steps }) => allSteps(steps))
    .flatMap((step) => proofsOf(step, labels, provers))
    .filter((proof) => proof.labels.length > 0)
}

/** Left and right are one line. */
function isFirstOfItsName(stepFile: StepFile, zone: ZoneSheet): boolean {
  return stepFile.zones.find((candidate) => candidate.name === zone.name) === zone
}
