import { liftDrawings } from '../../drawings/drawn-loads.ts'
import { drawingId } from '../../drawings/svg.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { rolesInWords, zoneInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps, type PhaseSheet, type StepSheet } from '../../wording/step-file-parts.ts'
import { headOf, type ListHead, type ListPaper, type ListSources, type Tidy } from './list-sheet.ts'
import { listSources } from './list-sources.ts'

export interface LiftPlan {
  readonly head: ListHead
  readonly lifts: readonly PlannedLift[]
  readonly cautions: readonly string[]
}

/** The plan and the drawings that it names by path. */
export interface LiftPlanParts {
  readonly plan: LiftPlan
  readonly drawings: readonly { readonly path: string; readonly text: string }[]
}

/** One lift, at every step where it is done the same way. */
export interface PlannedLift {
  readonly load: string
  /** `6.5 left, 6.5 right` */
  readonly places: readonly string[]
  readonly texts: readonly string[]
  readonly who: string
  /** As written: weight, legs, angle, gear. */
  readonly written: string
  readonly result: string
  readonly figures: readonly { readonly label: string; readonly text: string }[]
  readonly gear: readonly GearLine[]
  readonly working: readonly string[]
  readonly formula: string
  readonly source: string
  /** Places that a headcount empties, and what is kept while it hangs. */
  readonly kept: readonly string[]
  /** Of the first step where it is done so; null where it is not worked out. */
  readonly drawing: { readonly path: string; readonly alt: string } | null
}

export interface GearLine {
  readonly name: string
  readonly capacity: string
  readonly inspection: string
  /** `63.8 %`; empty where it is not known. */
  readonly used: string
  readonly left: string
}

type Working = StepSheet['workings'][number]

/** Null where nothing is lifted. */
export function liftPlanOf(stepFile: StepFile, paper: ListPaper): LiftPlanParts | null {
  const same = new Map<string, PlannedLift>()
  const cautions = new Set<string>()
  const drawings: { path: string; text: string }[] = []
  for (const phase of stepFile.phases) {
    for (const step of allSteps(phase.steps)) {
      for (const lift of liftsOf(stepFile, phase, step)) {
        const place = phase.position === null ? step.number : `${step.number} ${inWords(phase.position.label)}`
        const key = JSON.stringify(lift.plan)
        const before = same.get(key)
        const drawing = before === undefined ? drawingOfLift(stepFile, step, lift.name) : null
        if (drawing !== null) drawings.push({ path: `lift-${same.size + 1}.svg`, text: drawing.svg })
        same.set(key, {
          ...lift.plan,
          drawing: before?.drawing ?? (drawing && { path: `lift-${same.size + 1}.svg`, alt: drawing.says }),
          places: [...(before?.places ?? []), place],
          texts: [...new Set([...(before?.texts ?? []), step.text.plain])],
        })
        if (lift.caution !== '') cautions.add(lift.caution)
      }
    }
  }
  if (same.size === 0) return null
  const plan = { head: headOf(stepFile, 'Lift plan', paper), lifts: [...same.values()], cautions: [...cautions] }
  return { plan, drawings }
}

export function liftPlanSources({ plan, drawings }: LiftPlanParts, tidy: Tidy): ListSources {
  const sources = listSources('lift-plan.typ', plan, tidy)
  return { ...sources, files: [...sources.files, ...drawings] }
}

function drawingOfLift(stepFile: StepFile, step: StepSheet, name: string) {
  const id = drawingId('lift', `${step.id}/${name}`)
  return liftDrawings(step, stepFile).find((drawing) => drawing.id === id) ?? null
}

interface LiftAtStep {
  readonly name: string
  readonly plan: PlannedLift
  readonly caution: string
}

function liftsOf(stepFile: StepFile, phase: PhaseSheet, step: StepSheet): readonly LiftAtStep[] {
  const lines = step.entries.filter(({ key }) => key === 'lift').flatMap((entry) => entry.lines)
  return lines.map(({ name, text }) => {
    const working = step.workings.find(({ key, of }) => key === 'lift' && of === name)
    return {
      name: name ?? '',
      caution: working?.caution ?? '',
      plan: {
        load: inWords(name ?? 'load'),
        places: [],
        texts: [],
        drawing: null,
        who: rolesInWords(step.by),
        written: text,
        result: working?.says ?? 'Nothing was worked out for it: what it weighs or what carries it is not written.',
        figures: working === undefined ? [] : figuresOf(working),
        gear: working === undefined ? [] : gearOf(stepFile, working),
        working: working?.lines ?? [],
        formula: working?.formula ?? '',
        source: working?.source ?? '',
        kept: [
          ...(step.clear.length === 0
            ? []
            : [
                `Empty before it starts: ${step.clear.map((zone) => zoneInWords(stepFile, zone)).join(', ')}${step.clearedBy.length === 0 ? '' : `; heads counted by the ${rolesInWords(step.clearedBy)}`}.`,
              ]),
          ...[...phase.keeps, ...step.keeps].map(
            ({ name: keep, says, by }) => `${says ?? inWords(keep)}${by.length === 0 ? '' : ` (${rolesInWords(by)})`}`,
          ),
        ],
      },
    }
  })
}

function figuresOf({ figures }: Working): PlannedLift['figures'] {
  return figures
    .filter(({ name, kind }) => !name.startsWith('use:') && kind !== 'word')
    .map(({ name, value, unit }) => ({ label: inWords(name), text: `${value} ${unit}`.trim() }))
}

/** What each piece of gear has left, in whole per cent, down. */
function gearOf(stepFile: StepFile, { figures }: Working): readonly GearLine[] {
  return figures
    .filter(({ name }) => name.startsWith('use:'))
    .map(({ name, value }) => {
      const id = name.slice('use:'.length)
      const resource = [...stepFile.resources.gear, ...stepFile.resources.tools].find((one) => one.id === id)
      const fact = (wanted: string) => resource?.facts.find((one) => one.name === wanted)?.text ?? ''
      const used = Number(value)
      return {
        name: resource?.name ?? inWords(id),
        capacity: fact('capacity'),
        inspection: fact('inspection'),
        used: `${value} %`,
        left: Number.isFinite(used) ? `${Math.floor(100 - used)} %` : '',
      }
    })
}
