import { convertValue } from '../quantities/convert.ts'
import { parseLimit } from '../quantities/parse-limit.ts'
import type { Rational } from '../quantities/quantity-types.ts'
import { fromExactText, multiply, rational, roundUp, toDecimalText } from '../quantities/rational.ts'
import type { StepFile } from '../step-file/step-file.ts'
import { inWords } from '../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../wording/step-file-parts.ts'
import type { JobWait } from './job.ts'

/** 29 CFR 1910.252(a)(2)(iii)(B): a fire watch of at least half an hour; it stands where the author gave no time. */
const leastFireWatch = 30 * 60

/** The times of a step: its waits, and the fire watches that begin when it is ticked. */
export function waitsOf(stepFile: StepFile, phase: PhaseSheet, step: StepSheet): readonly JobWait[] {
  const own = step.waiting.map(({ earliest, latest, after }, index): JobWait => {
    const since = after === null ? [] : itemsNamed(stepFile, phase, after)
    return {
      id: `wait:${step.id}:${index + 1}`,
      says: step.waits[index] ?? '',
      earliest: seconds(earliest) ?? 0,
      latest: seconds(latest),
      begins: since.length === 0 ? 'started' : 'since',
      after: since,
    }
  })
  const steps = allSteps(phase.steps)
  const ofPhase = steps.at(-1)?.id === step.id ? phase.entries : []
  const watches = [...step.entries, ...ofPhase]
    .filter(({ key }) => key === 'hot-work')
    .flatMap(({ data }) => watchOf(data))
  return [
    ...own,
    ...watches.map(
      ({ by, time }, index): JobWait => ({
        id: `watch:${step.id}:${index + 1}`,
        says: `Fire watch${by === '' ? '' : `: ${inWords(by)}`}, ${time ?? 'min 30 min'}`,
        earliest: (time === null ? null : leastOf(time)) ?? leastFireWatch,
        latest: null,
        begins: 'watch',
        after: [],
      }),
    ),
  ]
}

function watchOf(data: PhaseSheet['entries'][number]['data']): readonly { by: string; time: string | null }[] {
  const watch = partIn(data, 'watch')
  if (watch === undefined) return []
  const by = partIn(watch, 'by')
  const time = partIn(watch, 'for')
  return [{ by: typeof by === 'string' ? by : '', time: typeof time === 'string' ? time : null }]
}

function partIn(data: unknown, key: string): unknown {
  if (typeof data !== 'object' || data === null || Array.isArray(data)) return undefined
  return Object.entries(data).find(([name]) => name === key)?.[1]
}

/** The lower end of a limit in seconds, or the time itself. */
function leastOf(typed: string): number | null {
  const limit = parseLimit(typed, 'time')
  if (!limit.ok) return null
  const value = limit.value.lower?.value ?? limit.value.aim ?? limit.value.upper?.value
  const converted = value === undefined || value === null ? null : convertValue(value, limit.value.unit, 's')
  return converted?.ok ? whole(converted.value) : null
}

/** Minutes, `p/q` or an integer, as whole seconds. */
function seconds(minutes: string | null): number | null {
  const exact = minutes === null ? null : fromExactText(minutes)
  return exact ? whole(multiply(exact, rational(60n))) : null
}

/** Never less than was written. */
function whole(value: Rational): number {
  return Number(toDecimalText(roundUp(value, rational(1n)), 0))
}

/** Step items that a wait is counted from: of the same position first, as references are. */
function itemsNamed(stepFile: StepFile, phase: PhaseSheet, name: string): readonly string[] {
  const everywhere = stepFile.phases.flatMap((one) => allSteps(one.steps))
  const near = allSteps(phase.steps)
  const named = ({ id, baseId }: StepSheet): boolean => id === name || baseId === name || id.endsWith(`/${name}`)
  const found = near.some(named) ? near.filter(named) : everywhere.filter(named)
  return found.map(({ id }) => `step:${id}`)
}
