import type { StepFile } from '../../step-file/step-file.ts'
import { onlyInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import type { StepSheet, TorqueSheet } from '../../wording/step-file-parts.ts'
import type { WorkingSheet } from '../../wording/working-text.ts'
import { type PlacedStep, placedSteps, placesInWords } from './places.ts'

type FigureKey = WorkingSheet['key']

const KEY_WORDS: Readonly<Record<FigureKey, string>> = {
  lift: 'Lifts',
  support: 'Supports',
  handle: 'Lifts by hand',
  torque: 'Torques',
  pressure: 'Pressure',
  'hot-work': 'Hot work',
  takes: 'Times',
  wear: 'Wear',
  rules: 'Published rules',
}

/** What was written of one key at one or several steps, and how its figures were worked out. */
export interface FigureItem {
  readonly places: string
  readonly written: readonly string[]
  readonly workings: readonly WorkingSheet[]
}

export interface FigureGroup {
  readonly title: string
  readonly items: readonly FigureItem[]
  /** What a qualified person must still look at, each once. */
  readonly cautions: readonly string[]
}

/** Lifts, supports, torques and whatever else was worked out. Steps with the very same figures share an item. */
export function figureGroups(stepFile: StepFile): readonly FigureGroup[] {
  const steps = placedSteps(stepFile)
  return (Object.keys(KEY_WORDS) as FigureKey[])
    .map((key) => {
      const items = itemsOf(key, steps)
      const cautions = items.flatMap(({ workings }) => workings.map(({ caution }) => caution))
      return { title: KEY_WORDS[key], items, cautions: [...new Set(cautions)].filter(Boolean) }
    })
    .filter(({ items }) => items.length > 0)
}

function itemsOf(key: FigureKey, steps: readonly PlacedStep[]): readonly FigureItem[] {
  const same = new Map<string, PlacedStep[]>()
  for (const placed of steps) {
    const written = writtenFor(key, placed.step)
    const workings = placed.step.workings.filter((working) => working.key === key)
    // How long a step takes stands in the schedule; here only what was worked out of it.
    if (workings.length === 0 && (written.length === 0 || key === 'takes')) continue
    const content = JSON.stringify([written, workings])
    same.set(content, [...(same.get(content) ?? []), placed])
  }
  return [...same.values()].flatMap((placed) => {
    const first = placed[0]?.step
    if (first === undefined) return []
    return [
      {
        places: placesInWords(placed),
        written: writtenFor(key, first),
        workings: first.workings.filter((working) => working.key === key),
      },
    ]
  })
}

function writtenFor(key: FigureKey, step: StepSheet): readonly string[] {
  if (key === 'torque') return step.torques.map(torqueInWords)
  return step.entries
    .filter((entry) => entry.key === key)
    .flatMap(({ lines }) => lines.map(({ name, text }) => (name === null ? text : `${inWords(name)}: ${text}`)))
}

/** `housing: 170 to 190 N·m (…), 8 × M16 10.9, oiled, star, with tw` */
function torqueInWords(torque: TorqueSheet): string {
  const said = [
    torque.limit.text,
    torque.fastener,
    torque.lubrication,
    torque.pattern,
    torque.passes.length === 0 ? null : `passes: ${torque.passes.map(({ text }) => text).join('; ')}`,
    torque.tool === null ? null : `with ${inWords(torque.tool)}`,
    ...torque.facts.map(({ name, text }) => `${inWords(name)} ${text}`),
    torque.only === null ? null : `only for ${onlyInWords(torque.only)}`,
  ].filter((one) => one !== null && one !== '')
  return `${inWords(torque.name)}: ${said.join(', ')}`
}
