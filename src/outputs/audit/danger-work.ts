import type { StepFile } from '../../step-file/step-file.ts'
import { rolesInWords, zoneInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { placedSteps, placeInWords } from './places.ts'

export interface HotWorkLine {
  readonly what: string
  readonly place: string
  readonly who: string
  readonly says: readonly string[]
}

/** Hot work and every permit, in the order of the job. */
export function hotWorkLines(stepFile: StepFile): readonly HotWorkLine[] {
  const steps = placedSteps(stepFile)
  return stepFile.phases.flatMap((phase) => {
    const position = phase.position?.label ?? ''
    const own = steps.filter((one) => one.phase === phase)
    const all = [
      { ...phase, workings: [] as StepFile['phases'][number]['steps'][number]['workings'] },
      ...own.map(({ step }) => step),
    ]
    return all.flatMap(({ number, by, entries, workings, permits }): readonly HotWorkLine[] => {
      const place = placeInWords(number, position)
      const hot = entries.filter(({ key }) => key === 'hot-work')
      return [
        ...hot.map(({ lines }) => ({
          what: 'hot work',
          place,
          who: rolesInWords(by),
          says: [
            ...lines.map(({ name, text }) => (name === null ? text : `${inWords(name)}: ${text}`)),
            ...workings.filter(({ key }) => key === 'hot-work').map(({ says }) => says),
          ],
        })),
        ...permits.map((permit) => ({
          what: `permit: ${inWords(permit.name)}`,
          place,
          who: permit.by === null ? 'nobody is named' : inWords(permit.by),
          says: [
            permit.says ?? '',
            permit.zones.map((zone) => zoneInWords(stepFile, zone)).join(', '),
            permit.lapses === null ? '' : `counts for ${permit.lapses}`,
          ],
        })),
      ]
    })
  })
}

export interface LiftLine {
  readonly load: string
  readonly place: string
  readonly written: readonly string[]
  readonly says: string
  /** `24 %: crane used to 76 % of its capacity`; empty where it is not known. */
  readonly margin: string
}

/** Every lift with what the weakest of its gear has left. */
export function liftLines(stepFile: StepFile): readonly LiftLine[] {
  return placedSteps(stepFile).flatMap(({ step, place }) => {
    const written = step.entries.filter(({ key }) => key === 'lift').flatMap(({ lines }) => lines)
    const workings = step.workings.filter(({ key }) => key === 'lift')
    const loads = [...new Set([...written.map(({ name }) => name ?? ''), ...workings.map(({ of }) => of)])]
    return loads.map((load) => {
      const working = workings.find(({ of }) => of === load)
      return {
        load: inWords(load),
        place,
        written: written.filter(({ name }) => (name ?? '') === load).map(({ text }) => text),
        says: working?.says ?? '',
        margin: working === undefined ? '' : marginOf(working),
      }
    })
  })
}

type Working = StepFile['phases'][number]['steps'][number]['workings'][number]

/** What the gear that is used most has left, in whole per cent, down. */
function marginOf({ figures }: Working): string {
  const uses = figures.filter(({ name, unit }) => name.startsWith('use:') && unit === '%')
  const most = uses.toSorted((a, b) => Number(b.value) - Number(a.value))[0]
  if (most === undefined || !Number.isFinite(Number(most.value))) return ''
  const gear = inWords(most.name.slice('use:'.length))
  return `${Math.floor(100 - Number(most.value))} %: ${gear} is used to ${most.value} %`
}
