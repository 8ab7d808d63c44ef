import { browserScripts } from '#generated/browser-scripts'
import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { inWords } from '../../wording/state-text.ts'
import { statusWord } from '../../wording/status-text.ts'

export interface IndexedDocument {
  /** Folder of the document, beside the index. */
  readonly folder: string
  readonly stepFile: StepFile
  /** Names of the files that stand there. */
  readonly files: readonly string[]
}

/** In the order in which they are offered. */
const FILE_WORDS: Readonly<Record<string, string>> = {
  'checklist.pdf': 'Checklist to print',
  'page.html': 'Page for the tablet',
  'checklist-fillable.pdf': 'Checklist to fill in on screen',
  'pick-list.pdf': 'Pick list',
  'pick-list.csv': 'Pick list as a table',
  'lift-plan.pdf': 'Lift plan',
  'sign-off.pdf': 'Training sign-off',
  'audit.html': 'Audit',
  'audit.csv': 'Audit as a table',
  'steps.json': 'Step file',
}

const LIBRARY_WORDS: Readonly<Record<string, string>> = {
  'audit.html': 'Audit of all procedures',
  'audit.csv': 'Audit of all as a table',
  'pick-list.pdf': 'Pick list of what was built together',
  'pick-list.csv': 'The same as a table',
}

/**
 * The list of all documents of a build, to search and to open; works from the file system.
 * `beside` are the files that stand beside it.
 */
export function indexHtml(documents: readonly IndexedDocument[], beside: readonly string[] = []): string {
  const ordered = documents.toSorted((a, b) => (a.folder < b.folder ? -1 : a.folder > b.folder ? 1 : 0))
  const sites = [...new Set(ordered.map(({ stepFile }) => stepFile.document.site ?? ''))].filter(Boolean)
  const title = sites.length === 1 ? `Procedures of ${sites[0]}` : 'Procedures'
  const rows = ordered.map((document) => ({ ...rowOf(document, ordered), files: fileLinks(document) }))
  const view = {
    title,
    count: ordered.length === 1 ? '1 procedure' : `${ordered.length} procedures`,
    files: Object.entries(LIBRARY_WORDS)
      .filter(([file]) => beside.includes(file))
      .map(([address, words]) => ({ address, words })),
    choices: [
      choice(
        'machine',
        'Machine',
        rows.map(({ machine }) => machine),
      ),
      choice(
        'status',
        'Status',
        rows.map(({ status }) => status),
      ),
      choice(
        'roles',
        'Role',
        rows.flatMap(({ roles }) => roles),
      ),
      choice(
        'newest',
        'Revision',
        rows.map(({ newest }) => newest),
      ),
    ],
    documents: rows.map((row) => ({ ...row, roles: row.roles.join('|'), who: row.roles.join(', ') })),
  }
  return htmlDocument({
    language: ordered[0]?.stepFile.document.language ?? 'en',
    title,
    body: fillTemplate('index-page/index', view),
    style: styles('base', 'index'),
    script: browserScripts.index ?? null,
    data: null,
  })
}

function choice(key: string, label: string, values: readonly string[]) {
  return { key, label, values: [...new Set(values)].sort() }
}

function fileLinks({ folder, files }: IndexedDocument) {
  return Object.entries(FILE_WORDS)
    .filter(([file]) => files.includes(file))
    .map(([file, words]) => ({ address: `${encodeURIComponent(folder)}/${file}`, words }))
}

function rowOf({ stepFile }: IndexedDocument, all: readonly IndexedDocument[]) {
  const { document, machine, phases, holds, roles, findings } = stepFile
  const steps = phases.reduce((sum, phase) => sum + phase.steps.length, 0)
  const serials = machine === null ? '' : machine.serials.join(', ')
  const newer = newerThan(stepFile, all)
  const row = {
    number: document.number,
    revision: document.revision,
    title: document.title,
    date: document.date,
    status: statusWord(document.status),
    isIssued: document.status === 'issued',
    machine: machine?.name ?? 'no machine named',
    serials,
    roles: roles.map(({ id }) => inWords(id)),
    newest: newer === null ? 'newest here' : 'older',
    newer: newer === null ? '' : `Revision ${newer} of it stands here, too.`,
    size: `${steps} steps, ${holds.length} ${holds.length === 1 ? 'signature' : 'signatures'}`,
    findings: findingCounts(findings),
  }
  const words = [
    row.number,
    `rev ${row.revision}`,
    row.title,
    row.status,
    row.machine,
    serials,
    ...row.roles,
    document.site ?? '',
  ]
  return { ...row, searched: words.join(' ').toLowerCase() }
}

/** The revision of the same number with a later date, the last of them; null where this is the newest that stands here. */
function newerThan({ document }: StepFile, all: readonly IndexedDocument[]): string | null {
  const later = all
    .map(({ stepFile }) => stepFile.document)
    .filter(
      ({ number, date, revision }) =>
        number === document.number && revision !== document.revision && date >= document.date,
    )
    .filter(({ date, revision }) => date > document.date || inOrder.compare(revision, document.revision) > 0)
    .sort((a, b) => (a.date === b.date ? inOrder.compare(a.revision, b.revision) : a.date < b.date ? -1 : 1))
  return later.at(-1)?.revision ?? null
}

/** `A9` before `A10`, the same on every machine. */
const inOrder = new Intl.Collator('en', { numeric: true })

/** `2 warnings, 1 advice`, or that nothing was found. */
function findingCounts(findings: StepFile['findings']): string {
  const warnings = findings.filter(({ severity }) => severity === 'warning').length
  const advice = findings.length - warnings
  const counts = [
    warnings === 0 ? '' : `${warnings} ${warnings === 1 ? 'warning' : 'warnings'}`,
    advice === 0 ? '' : `${advice} advice`,
  ].filter((count) => count !== '')
  return counts.length === 0 ? 'none when it was built' : `${counts.join(', ')} when it was built`
}
