import type { StepFile } from '../step-file/step-file.ts'
import { durationText } from './schedule-text.ts'

/** A bar for each phase over the hours of the job, as an SVG that is legible in black and white. */
interface ScheduleChart {
  readonly svg: string
  readonly alt: string
}

const width = 780
const left = 250
const right = 24
const rowHeight = 22
const top = 34
/** Minutes between two marks of the scale. */
const steps = [5, 10, 15, 30, 60, 120, 240, 480, 1440, 2880]
const mostMarks = 9
const lettersOfATitle = 34

export function scheduleChart({ schedule, phases }: StepFile): ScheduleChart | null {
  if (schedule === null || schedule.phases.length < 2) return null
  const end = Math.max(...schedule.phases.map(({ finish }) => finish))
  if (end <= 0) return null
  const step = steps.find((minutes) => end / minutes <= mostMarks) ?? Math.ceil(end / mostMarks / 1440) * 1440
  const whole = Math.ceil(end / step) * step
  const x = (minutes: number): string => (left + (minutes / whole) * (width - left - right)).toFixed(1)
  const rows = rowsOf(schedule, phases)
  const bottom = top + rows.length * rowHeight
  const height = bottom + 40
  const marks = Array.from({ length: Math.round(whole / step) + 1 }, (_, index) => index * step)
  const svg = [
    `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height}" width="${width}" height="${height}" role="img" font-family="'Source Sans 3', 'DejaVu Sans', sans-serif" font-size="14" fill="#000">`,
    '<title>The phases over the time of the job</title>',
    '<defs><pattern id="schedule-hatch" width="6" height="6" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V6" stroke="#000" stroke-width="1.6"/></pattern></defs>',
    `<rect width="${width}" height="${height}" fill="#fff"/>`,
    ...marks.map(
      (minutes) =>
        `<path d="M${x(minutes)} ${top - 6}V${bottom}" stroke="#888" stroke-width=".7"/><text x="${x(minutes)}" y="${top - 12}" font-size="12" text-anchor="middle">${minutes === 0 ? '0' : durationText(minutes)}</text>`,
    ),
    ...rows.flatMap(({ label, isBranch, bars }, index) => {
      const y = top + index * rowHeight
      return [
        `<text x="${isBranch ? 18 : 6}" y="${y + 16}">${escaped(label)}</text>`,
        ...bars.map((times) => bar(Number(x(times.start)), Number(x(times.finish)), y + 4, times)),
      ]
    }),
    legend(bottom + 16, schedule.phases),
    '</svg>',
  ].join('\n')
  return { svg, alt: altOf(schedule, phases) }
}

type Times = NonNullable<StepFile['schedule']>['phases'][number]

function bar(from: number, to: number, y: number, { isCritical, isOnTheWay }: Times): string {
  const long = Math.max(to - from, 0)
  // Nothing is known of a phase that is not on the way and takes no time.
  if (long === 0 && !isOnTheWay) return ''
  if (long === 0) return `<path d="M${from.toFixed(1)} ${y}v14" stroke="#000" stroke-width="2"/>`
  return `<rect x="${from.toFixed(1)}" y="${y}" width="${long.toFixed(1)}" height="14" ${lookOf(isCritical, isOnTheWay)}/>`
}

function lookOf(isCritical: boolean, isOnTheWay: boolean): string {
  if (!isOnTheWay) return 'fill="none" stroke="#000" stroke-width="1.2" stroke-dasharray="4 3"'
  if (isCritical) return 'fill="#000" stroke="#000"'
  return 'fill="url(#schedule-hatch)" stroke="#000" stroke-width="1.2"'
}

interface Row {
  readonly label: string
  readonly isBranch: boolean
  readonly bars: readonly Times[]
}

/** A row for each phase; the positions of a repeated one stand in one row. */
function rowsOf(schedule: NonNullable<StepFile['schedule']>, phases: StepFile['phases']): readonly Row[] {
  const byPhase = new Map(schedule.phases.map((times) => [times.phase, times]))
  return [...new Set(phases.map(({ number }) => number))].flatMap((number): readonly Row[] => {
    const same = phases.filter((phase) => phase.number === number)
    const [first] = same
    if (!first) return []
    const bars = same.flatMap(({ id }) => byPhase.get(id) ?? [])
    return [{ label: `${number} ${shortened(first.title)}`, isBranch: first.kind === 'branch', bars }]
  })
}

/** Only looks that stand in the chart are explained. */
function legend(y: number, bars: readonly Times[]): string {
  const long = bars.filter(({ start, finish }) => finish > start)
  const entries = [
    {
      is: long.some((one) => one.isOnTheWay && one.isCritical),
      look: lookOf(true, true),
      says: 'makes the job longer',
    },
    { is: long.some((one) => one.isOnTheWay && !one.isCritical), look: lookOf(false, true), says: 'has time to spare' },
    { is: long.some((one) => !one.isOnTheWay), look: lookOf(false, false), says: 'another way' },
  ].filter(({ is }) => is)
  return entries
    .map(({ look, says }, index) => {
      const at = left + index * 180
      return `<rect x="${at}" y="${y}" width="22" height="11" ${look}/><text x="${at + 28}" y="${y + 10}" font-size="12">${says}</text>`
    })
    .join('')
}

function altOf(schedule: NonNullable<StepFile['schedule']>, phases: StepFile['phases']): string {
  const told = schedule.phases.flatMap(({ phase, start, finish, isOnTheWay }) => {
    const found = phases.find(({ id }) => id === phase)
    if (!found || finish <= start) return []
    const name = [found.number, found.title, found.position?.label].filter(Boolean).join(' ')
    return [`${name} from ${durationText(start)} to ${durationText(finish)}${isOnTheWay ? '' : ' (another way)'}`]
  })
  return `Bars of the phases over the time of the job: ${told.join('; ')}.`
}

function shortened(title: string): string {
  return title.length <= lettersOfATitle ? title : `${title.slice(0, lettersOfATitle - 1).trimEnd()}…`
}

function escaped(text: string): string {
  return text.replaceAll('&', '&amp;').replaceAll('<', '&lt;').replaceAll('>', '&gt;')
}
