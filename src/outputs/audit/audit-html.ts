import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { zoneInWords } from '../../wording/people-text.ts'
import { shownProof } from '../../wording/proof-text.ts'
import { claimsInWords, inWords } from '../../wording/state-text.ts'
import { statusBanner } from '../../wording/status-text.ts'
import { whatCanKill } from '../../wording/what-can-kill.ts'
import { tableView, withoutProcedure } from './audit-table.ts'
import { energyLines, lockLines } from './energy-lines.ts'
import { acceptedLines, EXPOSED, exposureLines } from './exposure-lines.ts'
import { figureGroups } from './figure-items.ts'
import { auditedDocuments } from './library-documents.ts'
import { gapTable, libraryGaps } from './library-gaps.ts'
import { libraryTables } from './library-tables.ts'
import { headcountLines, holdLines, shownGroups, unsignedProofLines } from './proof-lines.ts'

/** What the safety officer reads before a procedure is signed: one page, without a script, to read or to print. */
export function auditHtml(stepFile: StepFile): string {
  const { number, revision, title, status, language } = stepFile.document
  const accepted = acceptedLines(stepFile)
  const proof = shownProof(stepFile)
  const documents = auditedDocuments([{ folder: '', stepFile }])
  const tables = libraryTables(documents).map((table) => [table.id, tableView(withoutProcedure(table))] as const)
  const view = {
    gaps: tableView(withoutProcedure(gapTable(libraryGaps(documents, [])))),
    tables: Object.fromEntries(tables),
    number,
    revision,
    title,
    banner: statusBanner(status),
    counts: countLines(stepFile),
    exposures: exposureLines(stepFile),
    acceptedExposures: accepted.filter(({ finding }) => finding === EXPOSED),
    accepted: accepted.filter(({ finding }) => finding !== EXPOSED),
    findings: stepFile.findings.map(({ name, severity, message, advice }) => ({ name, severity, message, advice })),
    proof: { head: proof.head, beside: proof.beside, groups: shownGroups(stepFile) },
    holds: holdLines(stepFile),
    headcounts: headcountLines(stepFile),
    unsigned: unsignedProofLines(stepFile),
    kill: whatCanKill(stepFile, Number.POSITIVE_INFINITY).lines.map((line) => ({
      ...line,
      word: line.signalWord === null ? 'PLACE' : line.signalWord.toUpperCase(),
    })),
    zones: stepFile.zones.map((zone) => ({
      name: zoneInWords(stepFile, zone.id),
      safeWhen: claimsInWords(stepFile, zone.safeWhen),
      entry: zone.entry === null ? '' : inWords(zone.entry),
    })),
    machine: stepFile.machine === null ? '' : [stepFile.machine.name, ...stepFile.machine.serials].join(', '),
    energies: energyLines(stepFile),
    locks: lockLines(stepFile),
    figures: figureGroups(stepFile),
    cautions: stepFile.cautions,
    facts: documentFacts(stepFile),
    approvals: stepFile.document.approvals.map(({ role, name, date }) => ({
      role: inWords(role),
      name: name ?? '',
      date: date ?? '',
    })),
  }
  return htmlDocument({
    language,
    title: `Audit of ${number} revision ${revision}`,
    body: fillTemplate('audit/audit', view),
    style: styles('base', 'audit'),
    script: null,
    data: null,
  })
}

function countLines(stepFile: StepFile) {
  const exposures = exposureLines(stepFile).length
  const others = stepFile.accepted.filter(({ finding }) => finding !== EXPOSED).length
  const open = stepFile.findings.length
  const own = holdLines(stepFile).filter(({ signsOwnWork }) => signsOwnWork).length
  const verdicts: Readonly<Record<StepFile['proof']['verdict'], string>> = {
    proved: 'holds on every way that was followed',
    faulty: 'does not hold on every way',
    'not-proved': 'nothing is shown',
    'nothing-to-prove': 'there was nothing to prove',
  }
  return [
    { name: 'Proof', text: verdicts[stepFile.proof.verdict] },
    { name: 'People on purpose where it is not safe', text: exposures === 0 ? 'none declared' : `${exposures}` },
    { name: 'Other findings accepted', text: others === 0 ? 'none' : `${others}` },
    { name: 'Warnings and advice still open', text: open === 0 ? 'none' : `${open}` },
    {
      name: 'Signatures',
      text:
        own === 0
          ? `${stepFile.holds.length}`
          : `${stepFile.holds.length}, of which ${own} may be given by who did the step`,
    },
  ]
}

function documentFacts({ document, digest, file }: StepFile) {
  const lines: readonly (readonly [string, string | null])[] = [
    ['Number', document.number],
    ['Revision', document.revision],
    ['Title', document.title],
    ['Status', inWords(document.status)],
    ['Date', document.date],
    ['Site', document.site],
    ['Author', document.author],
    ['Supersedes', document.supersedes],
    ['Review by', document.reviewBy],
    ['Made from', file],
    ['Digest', digest],
  ]
  return lines.flatMap(([name, text]) => (text === null || text === '' ? [] : [{ name, text }]))
}
