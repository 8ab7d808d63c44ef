import type { StepFile } from '../step-file/step-file.ts'
import { scheduleCaution } from '../trade/cautions.ts'
import { inWords } from './state-text.ts'

/** How long the job takes, for people. */
interface ShownSchedule {
  readonly head: string
  readonly lines: readonly string[]
}

export function shownSchedule({ schedule, phases }: StepFile): ShownSchedule | null {
  if (schedule === null) return null
  const { expected, least, most, steps, timedSteps, finishBy, personMinutes, variant } = schedule
  const spread =
    least === most
      ? ''
      : `, ${durationText(least)} where all goes well, ${durationText(most)} where everything goes badly`
  const bars = schedule.phases.filter(({ isCritical, isOnTheWay }) => isCritical && isOnTheWay)
  const longest = bars.toSorted((a, b) => b.finish - b.start - (a.finish - a.start)).slice(0, 3)
  const nameOf = (id: string): string => {
    const phase = phases.find((candidate) => candidate.id === id)
    return [phase?.number, phase?.title, phase?.position?.label].filter(Boolean).join(' ')
  }
  return {
    head: `About ${durationText(expected)}${spread}.`,
    lines: [
      'Counted without breaks, holds signed at once, everything in limit at the first try, of several ways the longest.',
      ...(variant === null ? [] : [`Of the variants the longest is counted: ${inWords(variant)}.`]),
      ...(timedSteps < steps
        ? [`${timedSteps} of ${steps} steps say how long they take or wait; the others count as nothing.`]
        : []),
      ...(longest.length > 0
        ? [
            `Longest: ${longest.map(({ phase, start, finish }) => `${nameOf(phase)} (${durationText(finish - start)})`).join('; ')}.`,
          ]
        : []),
      ...(personMinutes.length > 0
        ? [
            `People on the job: ${personMinutes.map(({ role, minutes }) => `${inWords(role)} ${durationText(minutes)}`).join(', ')}.`,
          ]
        : []),
      ...chances(finishBy),
      scheduleCaution,
    ],
  }
}

function chances(finishBy: NonNullable<StepFile['schedule']>['finishBy']): readonly string[] {
  const longest = finishBy.at(-1)
  if (longest === undefined) return []
  if (chanceText(longest.chance).startsWith('under'))
    return [`It does not fit into one shift of ${durationText(longest.minutes)}.`]
  const told = finishBy.map(({ minutes, chance }) => `${durationText(minutes)}: ${chanceText(chance)}`)
  return [`Chance to be done within ${told.join(', ')}, if the times of the steps do not depend on one another.`]
}

/** What a phase takes: as its author says, else as worked out from its steps; null where nothing is known. */
export function phaseTakes({ schedule }: StepFile, phase: StepFile['phases'][number]): string | null {
  if (phase.takes !== null) return phase.takes
  const times = schedule?.phases.find((candidate) => candidate.phase === phase.id)
  return times && times.finish > times.start ? `about ${durationText(times.finish - times.start)}` : null
}

/** `9 h 40 min`, `45 min`; to the minute, below one minute in seconds. */
export function durationText(minutes: number): string {
  if (minutes > 0 && minutes < 1) return `${Math.round(minutes * 60)} s`
  const whole = Math.round(minutes)
  const hours = Math.floor(whole / 60)
  const rest = whole % 60
  if (hours === 0) return `${rest} min`
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`
}

/** Never a promise: 0 and 1 are only nearly so. */
function chanceText(chance: number): string {
  if (chance >= 0.995) return 'over 99 %'
  return chance < 0.005 ? 'under 1 %' : `${Math.round(chance * 100)} %`
}
