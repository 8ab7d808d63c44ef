import { loadTypesetter, type MissingTypesetter, type Typesetter } from '../../devices/typesetter/typesetter.ts'
import type { OutputFile } from '../../devices/write-output.ts'
import { auditCsv } from '../../outputs/audit/audit-csv.ts'
import { auditHtml } from '../../outputs/audit/audit-html.ts'
import { libraryAuditCsv } from '../../outputs/audit/library-audit-csv.ts'
import { libraryAuditHtml } from '../../outputs/audit/library-audit-html.ts'
import { tidySheet } from '../../outputs/checklist/tidy-text.ts'
import { indexHtml } from '../../outputs/index-page/index-html.ts'
import { liftPlanOf, liftPlanSources } from '../../outputs/lists/lift-plan.ts'
import { hasItems, pickListCsv, pickListOf, pickListSources } from '../../outputs/lists/pick-list.ts'
import { signOffOf, signOffSources } from '../../outputs/lists/sign-off.ts'
import { pageHtml } from '../../outputs/page/page-html.ts'
import { stepFileText } from '../../step-file/make-step-file.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { checklistOrders } from './checklist-orders.ts'
import type { OutputOrder } from './output-order.ts'
import type { IndexedDocument, MadeOutputs, OutputChoices, OutputTiming } from './program.ts'

/** The files of one document, in the order in which they are named. */
export async function makeOutputs(stepFile: StepFile, choices: OutputChoices): Promise<MadeOutputs> {
  const { paper } = choices
  const draft = stepFile.document.status === 'draft'
  const picked = pickListOf([stepFile])
  const lifts = liftPlanOf(stepFile, paper)
  return carryOut([
    ...checklistOrders(stepFile, choices),
    { name: 'page.html', text: () => pageHtml(stepFile, { draft }) },
    { name: 'audit.html', text: () => auditHtml(stepFile) },
    { name: 'audit.csv', text: () => auditCsv(stepFile) },
    ...(hasItems(picked)
      ? ([
          { name: 'pick-list.pdf', print: () => pickListSources(picked, [stepFile], paper, tidySheet) },
          { name: 'pick-list.csv', text: () => pickListCsv(picked) },
        ] as const)
      : []),
    ...(lifts === null ? [] : [{ name: 'lift-plan.pdf', print: () => liftPlanSources(lifts, tidySheet) }]),
    { name: 'sign-off.pdf', print: () => signOffSources(signOffOf(stepFile, paper), tidySheet) },
    { name: 'steps.json', text: () => stepFileText(stepFile) },
  ])
}

/** Index and audit of all that stands in the output folder; the pick list of what was built together, where that is more than one. */
export async function makeLibraryFiles(
  documents: readonly IndexedDocument[],
  built: readonly StepFile[],
  { paper }: OutputChoices,
): Promise<MadeOutputs> {
  const picked = pickListOf(built)
  const beside = await carryOut([
    { name: 'audit.html', text: () => libraryAuditHtml(documents) },
    { name: 'audit.csv', text: () => libraryAuditCsv(documents) },
    ...(built.length > 1 && hasItems(picked)
      ? ([
          { name: 'pick-list.pdf', print: () => pickListSources(picked, built, paper, tidySheet) },
          { name: 'pick-list.csv', text: () => pickListCsv(picked) },
        ] as const)
      : []),
  ])
  const names = beside.files.map(({ name }) => name)
  const index = await carryOut([{ name: 'index.html', text: () => indexHtml(documents, names) }])
  return {
    files: [...index.files, ...beside.files],
    complaints: beside.complaints,
    timings: [...(index.timings ?? []), ...(beside.timings ?? [])],
  }
}

async function carryOut(orders: readonly OutputOrder[]): Promise<MadeOutputs> {
  const files: OutputFile[] = []
  const complaints = new Set<string>()
  const timings: OutputTiming[] = []
  for (const order of orders) {
    const started = performance.now()
    const made = 'text' in order ? { content: order.text() } : await printed(order)
    timings.push({ what: order.name, milliseconds: performance.now() - started })
    if ('content' in made) files.push({ name: order.name, content: made.content })
    else complaints.add(made.complaint)
  }
  return { files, complaints: [...complaints], timings }
}

async function printed({ name, print, fields }: Extract<OutputOrder, { print: unknown }>) {
  const typesetter = theTypesetter()
  if ('missing' in typesetter) return { complaint: typesetter.missing }
  try {
    return { content: await (fields ? typesetter.fillable : typesetter.render)(print()) }
  } catch (error) {
    const because = error instanceof Error ? error.message : String(error)
    return { complaint: `${name} could not be made: ${because}` }
  }
}

let loaded: Typesetter | MissingTypesetter | null = null

/** Loaded when the first print is made: a check needs neither its program nor its fonts. */
function theTypesetter(): Typesetter | MissingTypesetter {
  loaded ??= loadTypesetter()
  return loaded
}
