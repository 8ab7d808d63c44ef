import type { StepFile } from '../../step-file/step-file.ts'
import { allSteps, type StepSheet } from '../../wording/step-file-parts.ts'

/**
 * The step file with every limit, pass and value in the unit that leads alone. What the program printed in a second unit
 * is taken out as it stands, so the leading one keeps its rounding; what the author typed stays.
 *
 *     238 to 262 N·m (176 to 193 lbf·ft), aim 250 N·m (184 lbf·ft)   →   238 to 262 N·m, aim 250 N·m
 */
export function inOneUnit(stepFile: StepFile): StepFile {
  if (stepFile.document.printUnits.length < 2) return stepFile
  const second = secondUnits(stepFile)
  if (second.size === 0) return stepFile
  const behind = new RegExp(
    ` \\((?:(?:min|max|about|over|under) )?[−+]?\\d[^()]* ?(?:${[...second].map(literal).join('|')})\\)`,
    'g',
  )
  return withoutSecond(stepFile, (text) => text.replace(behind, '')) as StepFile
}

function secondUnits(stepFile: StepFile): ReadonlySet<string> {
  const steps = stepFile.phases.flatMap((phase) => allSteps(phase.steps))
  const limits = steps.flatMap((step) => [...step.torques, ...step.readings].flatMap(({ limit }) => limit ?? []))
  const units = limits.flatMap(({ inUnits }) => inUnits.slice(1).map(({ unit }) => unit))
  return new Set([...units, ...wordsOfValues(steps)].filter((unit) => unit !== ''))
}

/** The unit in the brackets of a value in the text, whose limit may stand in another document: `250 N·m (184 lbf·ft)`. */
function wordsOfValues(steps: readonly StepSheet[]): readonly string[] {
  return [
    ...JSON.stringify(steps).matchAll(/"kind":"value","name":"[^"]*","text":"[^"]*\([^()"]*[\d ]([^\d\s()"]+)\)"/g),
  ].map(([, unit]) => unit ?? '')
}

/** Texts that the program printed: of limits, their units, passes and values. */
function withoutSecond(value: unknown, shorten: (text: string) => string): unknown {
  if (Array.isArray(value)) return value.map((inner) => withoutSecond(inner, shorten))
  if (typeof value !== 'object' || value === null) return value
  const printed = 'inUnits' in value || 'share' in value || ('kind' in value && value.kind === 'value')
  return Object.fromEntries(
    Object.entries(value).map(([key, inner]) => {
      if (printed && key === 'inUnits' && Array.isArray(inner)) return [key, inner.slice(0, 1)]
      if (printed && (key === 'text' || key === 'aimText') && typeof inner === 'string') return [key, shorten(inner)]
      return [key, withoutSecond(inner, shorten)]
    }),
  )
}

const literal = (text: string): string => text.replace(/[.*+?^${}()|[\]\\/]/g, '\\$&')
