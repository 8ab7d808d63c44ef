import type { StepFile } from '../step-file/step-file.ts'
import { durationText } from '../wording/schedule-text.ts'
import { inWords } from '../wording/state-text.ts'
import { allSteps } from '../wording/step-file-parts.ts'
import { cutToFit, textWidth } from './letter-widths.ts'
import { box, type Drawing, drawingOf, hatch, path, SMALL, short, text } from './svg.ts'

const width = 516
const left = 176
const right = 20
const rowHeight = 15
const top = 24
const barHeight = 10
/** Minutes between two marks of the scale. */
const steps = [5, 10, 15, 30, 60, 120, 240, 480, 1440, 2880]
const mostMarks = 8

/** A bar for each phase over the hours of the job, and below who is at work when; null where there is one phase only. */
export function scheduleChart({ schedule, phases }: StepFile): Drawing | null {
  if (schedule === null || schedule.phases.length < 2) return null
  const end = Math.max(...schedule.phases.map(({ finish }) => finish))
  if (end <= 0) return null
  const step = steps.find((minutes) => end / minutes <= mostMarks) ?? Math.ceil(end / mostMarks / 1440) * 1440
  const whole = Math.ceil(end / step) * step
  const x = (minutes: number): number => left + (minutes / whole) * (width - left - right)
  const rows = rowsOf(schedule, phases)
  const crew = crewOf(schedule, phases)
  const crewTop = top + rows.length * rowHeight + (crew.length === 0 ? 0 : 8)
  const bottom = crewTop + crew.length * rowHeight
  const marks = Array.from({ length: Math.round(whole / step) + 1 }, (_, index) => index * step)
  const id = 'schedule'
  return drawingOf({
    id,
    title: 'The phases over the time of the job',
    says: describe(schedule, phases),
    width,
    height: bottom + 26,
    parts: [
      hatch(id).definition,
      path(marks.map((minutes) => `M${short(x(minutes))} ${top - 5}V${bottom}`).join(''), { width: 0.4 }),
      ...scaleTexts(marks, x),
      ...rows.flatMap(({ label, isBranch, bars }, index) => {
        const y = top + index * rowHeight
        const from = isBranch ? 16 : 4
        return [
          text(from, y + 10.5, cutToFit(label, SMALL, left - from - 6), { size: SMALL }),
          ...bars.map((times) => bar(x(times.start), x(times.finish), y + 2.5, times)),
        ]
      }),
      ...(crew.length === 0 ? [] : [path(`M4 ${crewTop - 4}H${width - right}`, { width: 0.6 })]),
      ...crew.flatMap(({ role, times }, index) => {
        const y = crewTop + index * rowHeight
        return [
          text(4, y + 10.5, cutToFit(role, SMALL, left - 10), { size: SMALL }),
          path(times.map(({ start, finish }) => `M${short(x(start))} ${short(y + 7.5)}H${short(x(finish))}`).join(''), {
            width: 3,
          }),
        ]
      }),
      ...legend(bottom + 9, schedule.phases, crew.length > 0),
    ],
  })
}

/** As many of the marks as have room for their words; the last stays within the sheet. */
function scaleTexts(marks: readonly number[], x: (minutes: number) => number): readonly string[] {
  let free = 0
  return marks.flatMap((minutes) => {
    const says = minutes === 0 ? '0' : durationText(minutes)
    const long = textWidth(says, SMALL)
    const middle = Math.min(x(minutes), width - 2 - long / 2)
    if (middle - long / 2 < free) return []
    free = middle + long / 2 + 6
    return [text(middle, top - 9, says, { size: SMALL, at: 'middle' })]
  })
}

type Schedule = NonNullable<StepFile['schedule']>
type Times = Schedule['phases'][number]

function bar(from: number, to: number, y: number, { isCritical, isOnTheWay }: Times): string {
  const long = Math.max(to - from, 0)
  // Nothing is known of a phase that is not on the way and takes no time.
  if (long === 0) return isOnTheWay ? path(`M${short(from)} ${short(y)}v${barHeight}`, { width: 2 }) : ''
  return shape(box(from, y, long, barHeight), isCritical, isOnTheWay)
}

function shape(d: string, isCritical: boolean, isOnTheWay: boolean): string {
  if (!isOnTheWay) return path(d, { width: 1.2, dashed: true })
  return path(d, { fill: isCritical ? 'currentColor' : hatch('schedule').fill })
}

interface Row {
  readonly label: string
  readonly isBranch: boolean
  readonly bars: readonly Times[]
}

/** A row for each phase; the positions of a repeated one stand in one row. */
function rowsOf(schedule: Schedule, phases: StepFile['phases']): readonly Row[] {
  const byPhase = new Map(schedule.phases.map((times) => [times.phase, times]))
  return [...new Set(phases.map(({ number }) => number))].flatMap((number): readonly Row[] => {
    const same = phases.filter((phase) => phase.number === number)
    const [first] = same
    if (!first) return []
    const bars = same.flatMap(({ id }) => byPhase.get(id) ?? [])
    return [{ label: `${number} ${first.title}`, isBranch: first.kind === 'branch', bars }]
  })
}

interface CrewRow {
  readonly role: string
  readonly times: readonly { readonly start: number; readonly finish: number }[]
}

/** Phases on the way in which a role has a step: it need not be there all of the phase. */
function crewOf(schedule: Schedule, phases: StepFile['phases']): readonly CrewRow[] {
  return schedule.personMinutes.flatMap(({ role, minutes }): readonly CrewRow[] => {
    const at = new Set(
      phases
        .filter((phase) =>
          allSteps(phase.steps).some(
            (step) => step.by.includes(role) || step.acts.some((act) => act.by.includes(role)),
          ),
        )
        .map(({ id }) => id),
    )
    const times = schedule.phases.filter(
      ({ phase, isOnTheWay, start, finish }) => isOnTheWay && finish > start && at.has(phase),
    )
    return times.length === 0 ? [] : [{ role: `${inWords(role)}, ${durationText(minutes)}`, times }]
  })
}

/** Only looks that stand in the chart are explained. */
function legend(y: number, bars: readonly Times[], hasCrew: boolean): readonly string[] {
  const long = bars.filter(({ start, finish }) => finish > start)
  const sample = (isCritical: boolean, isOnTheWay: boolean) => (x: number) =>
    shape(box(x, y, 20, 9), isCritical, isOnTheWay)
  const entries = [
    ...(long.some((one) => one.isOnTheWay && one.isCritical)
      ? [{ mark: sample(true, true), says: 'makes the job longer', room: 128 }]
      : []),
    ...(long.some((one) => one.isOnTheWay && !one.isCritical)
      ? [{ mark: sample(false, true), says: 'has time to spare', room: 112 }]
      : []),
    ...(long.some((one) => !one.isOnTheWay) ? [{ mark: sample(false, false), says: 'another way', room: 88 }] : []),
    ...(hasCrew
      ? [
          {
            mark: (x: number) => path(`M${short(x)} ${short(y + 4.5)}h20`, { width: 3 }),
            says: 'has a step in this phase',
            room: 0,
          },
        ]
      : []),
  ]
  let x = 4
  return entries.flatMap(({ mark, says, room }) => {
    const at = x
    x += room + 26
    return [mark(at), text(at + 25, y + 8, says, { size: SMALL })]
  })
}

function describe(schedule: Schedule, phases: StepFile['phases']): string {
  const told = schedule.phases.flatMap(({ phase, start, finish, isOnTheWay }) => {
    const found = phases.find(({ id }) => id === phase)
    if (!found || finish <= start) return []
    const name = [found.number, found.title, found.position?.label].filter(Boolean).join(' ')
    return [`${name} from ${durationText(start)} to ${durationText(finish)}${isOnTheWay ? '' : ' (another way)'}`]
  })
  return `Bars of the phases over the time of the job: ${told.join('; ')}.`
}
