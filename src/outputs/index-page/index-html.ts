import { browserScripts } from '#generated/browser-scripts'
import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { StepFile } from '../../step-file/step-file.ts'

export interface IndexedDocument {
  /** Folder of the document, beside the index. */
  readonly folder: string
  readonly stepFile: StepFile
  /** Names of the files that stand there. */
  readonly files: readonly string[]
}

const FILE_WORDS: Readonly<Record<string, string>> = {
  'checklist.pdf': 'Checklist to print',
  'page.html': 'Page for the tablet',
  'audit.html': 'Audit',
  'audit.csv': 'Audit as a table',
  'steps.json': 'Step file',
}

const STATUS_WORDS: Readonly<Record<StepFile['document']['status'], string>> = {
  draft: 'draft, not for use',
  'for-review': 'for review',
  issued: 'issued',
  withdrawn: 'withdrawn',
}

/** The list of all documents of a build, to search and to open; works from the file system. */
export function indexHtml(documents: readonly IndexedDocument[]): string {
  const ordered = [...documents].sort((a, b) => (a.folder < b.folder ? -1 : a.folder > b.folder ? 1 : 0))
  const sites = [...new Set(ordered.map(({ stepFile }) => stepFile.document.site ?? ''))].filter(Boolean)
  const title = sites.length === 1 ? `Procedures of ${sites[0]}` : 'Procedures'
  const view = {
    title,
    count: ordered.length === 1 ? '1 procedure' : `${ordered.length} procedures`,
    documents: ordered.map(({ folder, stepFile, files }) => ({
      ...rowOf(stepFile),
      files: files
        .filter((file) => FILE_WORDS[file] !== undefined)
        .map((file) => ({ address: `${encodeURIComponent(folder)}/${file}`, words: FILE_WORDS[file] })),
    })),
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

function rowOf({ document, machine, phases, holds, roles, findings }: StepFile) {
  const steps = phases.reduce((sum, phase) => sum + phase.steps.length, 0)
  const equipment = machine ? [machine.name, ...machine.serials].join(', ') : ''
  const who = roles.map((role) => role.id.replaceAll('-', ' ')).join(', ')
  const words = [document.number, document.title, document.status, equipment, who, document.site ?? '']
  return {
    number: document.number,
    revision: document.revision,
    title: document.title,
    date: document.date,
    status: STATUS_WORDS[document.status],
    isIssued: document.status === 'issued',
    equipment,
    who,
    size: `${steps} steps, ${holds.length} ${holds.length === 1 ? 'signature' : 'signatures'}`,
    findings: findingCounts(findings),
    searched: words.join(' ').toLowerCase(),
  }
}

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
