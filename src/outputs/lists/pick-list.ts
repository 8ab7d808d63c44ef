import type { StepFile } from '../../step-file/step-file.ts'
import { csvText } from '../../wording/csv-text.ts'
import { zoneInWords } from '../../wording/people-text.ts'
import { inWords } from '../../wording/state-text.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { datePartsOf, headOf, type ListHead, type ListPaper, type ListSources, type Tidy } from './list-sheet.ts'
import { listSources } from './list-sources.ts'
import { sumOfQuantities } from './sum-quantities.ts'

/** What to fetch for one or several procedures, and which papers must be open first. */
export interface PickList {
  readonly procedures: readonly { readonly name: string; readonly title: string }[]
  readonly permits: readonly PermitItem[]
  readonly groups: readonly { readonly title: string; readonly blanks: Blanks; readonly items: readonly PickItem[] }[]
}

export interface PermitItem {
  readonly name: string
  readonly by: string
  readonly where: string
  readonly lasts: string
  /** `KRQ-BC-014 rev A at 3.2`, each once. */
  readonly from: readonly string[]
}

export interface PickItem {
  readonly name: string
  readonly facts: string
  readonly stock: string
  /** Added up over the procedures; empty where nobody wrote one. */
  readonly quantity: string
  /** `always new`, `only if needed`, or empty. */
  readonly renewed: string
  readonly from: readonly string[]
}

/** What is written down beside an item when it is fetched. */
export type Blanks = 'asset' | 'inspected' | 'lot' | 'old-back' | 'none'

type Resource = StepFile['resources']['tools'][number]

const GROUPS: readonly {
  readonly title: string
  readonly blanks: Blanks
  readonly of: (resources: StepFile['resources']) => readonly Resource[]
}[] = [
  { title: 'Parts', blanks: 'old-back', of: ({ parts }) => parts },
  { title: 'Consumables', blanks: 'lot', of: ({ consumables }) => consumables },
  { title: 'Instruments', blanks: 'asset', of: ({ tools }) => tools.filter(({ isInstrument }) => isInstrument) },
  { title: 'Gear that carries', blanks: 'inspected', of: ({ gear }) => gear },
  { title: 'Tools', blanks: 'none', of: ({ tools }) => tools.filter(({ isInstrument }) => !isInstrument) },
  { title: 'To wear, for each person', blanks: 'none', of: ({ ppe }) => ppe },
]

const nameOf = ({ document }: StepFile): string => `${document.number} rev ${document.revision}`

/** In the order of number and revision; the same thing with the same number is one item. */
export function pickListOf(stepFiles: readonly StepFile[]): PickList {
  const ordered = stepFiles.toSorted((a, b) => (nameOf(a) < nameOf(b) ? -1 : 1))
  return {
    procedures: ordered.map((stepFile) => ({ name: nameOf(stepFile), title: stepFile.document.title })),
    permits: permitItems(ordered),
    groups: GROUPS.map(({ title, blanks, of }) => ({ title, blanks, items: itemsOf(ordered, of) })).filter(
      ({ items }) => items.length > 0,
    ),
  }
}

export function hasItems({ permits, groups }: PickList): boolean {
  return permits.length > 0 || groups.length > 0
}

function itemsOf(
  stepFiles: readonly StepFile[],
  of: (resources: StepFile['resources']) => readonly Resource[],
): readonly PickItem[] {
  const same = new Map<string, { readonly resource: Resource; readonly from: string }[]>()
  for (const stepFile of stepFiles) {
    for (const resource of of(stepFile.resources)) {
      // What carries one name here and another rating there is two things.
      const key = JSON.stringify([resource.id, resource.name, resource.number, resource.facts])
      const listed = same.get(key)
      const entry = { resource, from: nameOf(stepFile) }
      if (listed === undefined) same.set(key, [entry])
      else listed.push(entry)
    }
  }
  return [...same.values()].flatMap((uses) => {
    const first = uses[0]?.resource
    if (first === undefined) return []
    const renewals = new Set(uses.map(({ resource }) => resource.replace))
    return [
      {
        name: first.name,
        facts: first.facts.map(({ name, text }) => `${inWords(name)} ${text}`).join(', '),
        stock: first.number ?? '',
        quantity: sumOfQuantities(uses.flatMap(({ resource }) => resource.quantity ?? [])),
        renewed: renewals.has('always') ? 'always new' : renewals.has('on-condition') ? 'only if needed' : '',
        from: [...new Set(uses.map(({ from }) => from))],
      },
    ]
  })
}

function permitItems(stepFiles: readonly StepFile[]): readonly PermitItem[] {
  const same = new Map<string, PermitItem>()
  for (const stepFile of stepFiles) {
    for (const phase of stepFile.phases) {
      for (const { number, permits } of [phase, ...allSteps(phase.steps)]) {
        for (const permit of permits) {
          const item = {
            name: inWords(permit.name),
            by: permit.by === null ? 'nobody is named' : inWords(permit.by),
            where: permit.zones.map((zone) => zoneInWords(stepFile, zone)).join(', '),
            lasts: permit.lapses ?? '',
          }
          const key = JSON.stringify(item)
          const from = same.get(key)?.from ?? []
          same.set(key, { ...item, from: [...new Set([...from, `${nameOf(stepFile)} at ${number}`])] })
        }
      }
    }
  }
  return [...same.values()]
}

export function pickListCsv(list: PickList): string {
  const rows = [
    ...list.permits.map(({ name, by, where, lasts, from }) => [
      'Permits',
      name,
      [`issued by ${by}`, where, lasts === '' ? '' : `counts for ${lasts}`].filter((part) => part !== '').join(', '),
      '',
      '',
      '',
      from.join('; '),
    ]),
    ...list.groups.flatMap(({ title, items }) =>
      items.map(({ name, facts, stock, quantity, renewed, from }) => [
        title,
        name,
        facts,
        stock,
        quantity,
        renewed,
        from.join('; '),
      ]),
    ),
  ]
  return csvText([['group', 'what', 'which', 'number', 'quantity', 'new', 'for'], ...rows])
}

export function pickListSources(
  list: PickList,
  stepFiles: readonly StepFile[],
  paper: ListPaper,
  tidy: Tidy,
): ListSources {
  const only = stepFiles.length === 1 ? stepFiles[0] : undefined
  const head: ListHead | null = only === undefined ? headOfSeveral(stepFiles, paper) : headOf(only, 'Pick list', paper)
  return listSources('pick-list.typ', { head, list }, tidy)
}

function headOfSeveral(stepFiles: readonly StepFile[], paper: ListPaper): ListHead {
  const dates = stepFiles.map(({ document }) => document.date).sort()
  const unissued = stepFiles.filter(({ document }) => document.status !== 'issued')
  return {
    paper,
    kind: 'Pick list',
    document: '',
    title: `Pick list for ${stepFiles.length} procedures`,
    digestShort: '',
    dateText: dates.at(-1) ?? '',
    date: datePartsOf(dates.at(-1) ?? ''),
    language: stepFiles[0]?.document.language ?? 'en',
    notForUse: unissued.length === 0 ? null : `NOT ISSUED: ${unissued.map(nameOf).sort().join(', ')}`,
    cautions: [...new Set(stepFiles.flatMap(({ cautions }) => cautions))],
  }
}
