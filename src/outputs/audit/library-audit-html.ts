import { browserScripts } from '#generated/browser-scripts'
import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { inWords } from '../../wording/state-text.ts'
import { statusWord } from '../../wording/status-text.ts'
import { type AuditCell, type AuditTable, cell, strongCell, tableView } from './audit-table.ts'
import { GAPS, type GapGroup } from './gap-lines.ts'
import { type AuditedDocument, auditedDocuments } from './library-documents.ts'
import { gapTable, type LibraryGap, libraryGaps } from './library-gaps.ts'
import { documentCell } from './library-rows.ts'
import { libraryTables } from './library-tables.ts'
import {
  conflictsOf,
  DEALT_WORDS,
  type EnergyCell,
  type MachineMatrix,
  machineMatrices,
  placesOf,
} from './machine-matrix.ts'

/** The audit of everything that stands in an output folder: gaps first; works from the file system. */
export function libraryAuditHtml(found: readonly { readonly folder: string; readonly stepFile: StepFile }[]): string {
  const documents = auditedDocuments(found)
  const matrices = machineMatrices(documents)
  const gaps = libraryGaps(documents, matrices.flatMap(conflictsOf))
  const sites = [...new Set(documents.map(({ stepFile }) => stepFile.document.site ?? ''))].filter(Boolean)
  const title = sites.length === 1 ? `Audit of the procedures of ${sites[0]}` : 'Audit of all procedures'
  const tables = [...matrices.flatMap(matrixTables), ...libraryTables(documents)]
  const view = {
    title,
    answer: answer(documents, gaps),
    counts: countLines(gaps),
    procedures: documents.map((document) => procedureLine(document, gaps)),
    gaps: tableView(gapTable(gaps)),
    tables: tables.map(tableView),
    choices: {
      documents: documents.map(({ name, title: words }) => ({ value: name, words: `${name}: ${words}` })),
      machines: [...new Set(documents.map(({ machine }) => machine))].sort(),
      statuses: [...new Set(documents.map(({ status }) => status))].map((value) => ({ value, words: inWords(value) })),
      roles: [...new Set(documents.flatMap(({ stepFile }) => stepFile.roles.map(({ id }) => inWords(id))))].sort(),
    },
    cautions: [...new Set(documents.flatMap(({ stepFile }) => stepFile.cautions))],
  }
  return htmlDocument({
    language: documents[0]?.stepFile.document.language ?? 'en',
    title,
    body: fillTemplate('audit/library', view),
    style: styles('base', 'audit', 'library-audit'),
    script: browserScripts.audit ?? null,
    data: null,
  })
}

const isUnproved = ({ kind }: LibraryGap): boolean => GAPS[kind].group === 'unproved'

/** The first question, answered in one sentence. */
function answer(documents: readonly AuditedDocument[], gaps: readonly LibraryGap[]): string {
  const exposed = new Set(gaps.filter(isUnproved).map(({ document }) => document.name)).size
  const open = new Set(
    gaps.filter(({ kind }) => GAPS[kind].group !== 'on-purpose').map(({ document }) => document.name),
  ).size
  if (documents.length === 0) return 'No procedure stands in this folder.'
  if (exposed > 0) return `${countOf(exposed, documents)} somebody exposed where nothing proves that it is safe.`
  if (open > 0)
    return `In no procedure is somebody exposed without any proof. ${countOf(open, documents)} other gaps to look at.`
  return 'No gap was found in what these procedures declare.'
}

function countOf(count: number, documents: readonly AuditedDocument[]): string {
  if (documents.length === 1) return 'The one procedure here has'
  return `${count} of ${documents.length} procedures ${count === 1 ? 'has' : 'have'}`
}

const GROUP_WORDS: Readonly<Record<GapGroup, string>> = {
  unproved: 'Exposed, and nothing proves it safe',
  undeclared: 'Declared by nobody, or procedures disagree',
  'own-work': 'May be signed by who did the work',
  unsigned: 'Proved by a reading or test that nobody signs',
  danger: 'Dangers that rules hold, and no proof',
  'on-purpose': 'There on purpose, signed for',
}

function countLines(gaps: readonly LibraryGap[]) {
  return (Object.keys(GROUP_WORDS) as GapGroup[]).map((group) => {
    const count = gaps.filter(({ kind }) => GAPS[kind].group === group).length
    return {
      name: GROUP_WORDS[group],
      count: count === 0 ? 'none' : `${count}`,
      isBad: count > 0 && group === 'unproved',
    }
  })
}

/** One line a procedure in the head: which to look at first. */
function procedureLine(document: AuditedDocument, gaps: readonly LibraryGap[]) {
  const own = gaps.filter((gap) => gap.document === document)
  const counted = (Object.keys(GROUP_WORDS) as GapGroup[]).flatMap((group) => {
    const count = own.filter(({ kind }) => GAPS[kind].group === group).length
    return count === 0 ? [] : [`${count} ${SHORT[group]}`]
  })
  return {
    name: document.name,
    title: document.title,
    status: statusWord(document.stepFile.document.status),
    address: documentCell(document).address,
    text: counted.length === 0 ? 'no gap found' : counted.join(', '),
    isBad: own.some(isUnproved),
  }
}

const SHORT: Readonly<Record<GapGroup, string>> = {
  unproved: 'without proof',
  undeclared: 'undeclared or in conflict',
  'own-work': 'own work',
  unsigned: 'unsigned',
  danger: 'by rules alone',
  'on-purpose': 'on purpose and signed',
}

/** So many procedures stand side by side; more would leave the paper. */
const ABREAST = 5

/** Machine × energy, a column a procedure, in as many tables as are needed. */
function matrixTables(matrix: MachineMatrix, order: number): readonly AuditTable[] {
  const starts = matrix.documents.flatMap((_, index) => (index % ABREAST === 0 ? [index] : []))
  return starts.map((start) => {
    const documents = matrix.documents.slice(start, start + ABREAST)
    const more = starts.length > 1 ? `, procedures ${start + 1} to ${start + documents.length}` : ''
    return {
      id: `machine-${order + 1}-${start / ABREAST + 1}`,
      title: `Energies of ${matrix.machine}${more}`,
      says: 'What each procedure does about each energy, and where. What a procedure leaves out has its reason here.',
      none: 'Its machine file names no energy.',
      columns: ['Energy', ...documents.map(({ name }) => name)],
      rows: matrix.rows.map((row) => ({
        of: {
          documents: documents.map(({ name }) => name),
          machine: matrix.machine,
          statuses: [...new Set(documents.map(({ status }) => status))],
          roles: [],
        },
        cells: [cell([row.energy, ...row.magnitudes]), ...row.cells.slice(start, start + ABREAST).map(matrixCell)],
      })),
    }
  })
}

function matrixCell(one: EnergyCell | null): AuditCell {
  if (one === null) return strongCell('not known here')
  const places = placesOf(one)
  const words = DEALT_WORDS[one.dealt]
  const lines = [
    places === '' ? words : `${words}, ${places}`,
    one.points.length === 0 ? '' : `locked: ${one.points.join('; ')}`,
    one.line.dismissed === '' || one.dealt === 'silent' ? '' : one.line.dismissed,
  ]
  return { ...cell(lines), isStrong: ['word', 'named', 'silent'].includes(one.dealt) }
}
