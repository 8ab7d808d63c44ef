import type { StepFile } from '../../step-file/step-file.ts'
import { csvText } from '../../wording/csv-text.ts'
import { shownProof } from '../../wording/proof-text.ts'
import { acceptedLines, exposureLines } from './exposure-lines.ts'
import { GAPS, gapLines } from './gap-lines.ts'
import { headcountLines, holdLines, shownGroups, unsignedProofLines } from './proof-lines.ts'
import { PROOF_WORDS, proofLines } from './proof-ways.ts'

export const COLUMNS = ['kind', 'name', 'step', 'position', 'who', 'says', 'proves', 'because'] as const
export type Row = { readonly kind: string } & { readonly [Column in (typeof COLUMNS)[number]]?: string }

/** The audit as a table: gaps, exposures and acceptances first, then signatures, proofs, findings, and what was shown and what not. */
export function auditCsv(stepFile: StepFile): string {
  const { number, revision } = stepFile.document
  const cells = [...gapRows(stepFile), ...auditRows(stepFile)].map((row) => [
    number,
    revision,
    ...COLUMNS.map((column) => cellOf(row, column)),
  ])
  return csvText([['document', 'revision', ...COLUMNS], ...cells])
}

/** A spreadsheet takes `9.10` for the number 9.1 or for a day, so a step number never stands alone. */
export function cellOf(row: Row, column: (typeof COLUMNS)[number]): string {
  const text = row[column] ?? ''
  return column === 'step' && /^[\d.]+$/.test(text) ? `step ${text}` : text
}

/** Gaps that one procedure shows by itself. */
export function gapRows(stepFile: StepFile): readonly Row[] {
  return gapLines(stepFile).map(
    ({ kind, steps, who, where, says }): Row => ({
      kind: 'gap',
      name: GAPS[kind].words,
      step: steps,
      position: where,
      who,
      says,
    }),
  )
}

/** Everything else that is known of one procedure. */
export function auditRows(stepFile: StepFile): readonly Row[] {
  const shown = shownProof(stepFile)
  return [
    ...exposureLines(stepFile).map(
      (line): Row => ({
        kind: 'exposure',
        name: line.zones,
        step: line.number,
        position: line.position,
        who: line.who,
        says: [...line.controls, ...line.agreed].join('; '),
        because: line.because,
      }),
    ),
    ...acceptedLines(stepFile).map(
      (line): Row => ({
        kind: 'acceptance',
        name: line.finding,
        step: line.where.replace(/^Step /, ''),
        who: line.role,
        says: line.messages,
        because: line.because,
      }),
    ),
    ...holdLines(stepFile).map(
      (line): Row => ({
        kind: line.word.toLowerCase(),
        name: line.label,
        step: line.number,
        position: line.position,
        who: line.role,
        says: line.says,
        proves: line.proves,
        because: line.notProves === '' ? '' : `does not prove: ${line.notProves}`,
      }),
    ),
    ...unsignedProofLines(stepFile).map(
      (line): Row => ({
        kind: 'unsigned proof',
        name: line.how,
        step: line.number,
        position: line.position,
        who: line.who,
        says: line.says,
        proves: line.proves,
      }),
    ),
    ...proofLines(stepFile).map(
      (line): Row => ({
        kind: 'proof lost',
        name: PROOF_WORDS[line.kind],
        step: line.place,
        who: line.who,
        says: line.lost.join(' '),
        proves: line.proves,
      }),
    ),
    ...headcountLines(stepFile).map(
      (line): Row => ({
        kind: 'headcount',
        name: line.zones,
        step: line.number,
        position: line.position,
        who: line.who,
        says: 'Nobody is there.',
      }),
    ),
    ...stepFile.findings.map(
      ({ severity, name, message, advice }): Row => ({ kind: severity, name, says: [message, advice].join(' ') }),
    ),
    { kind: 'proof', name: stepFile.proof.verdict, says: shown.head },
    ...shownGroups(stepFile).flatMap(({ title, lines }) =>
      lines.map(
        (line): Row => ({ kind: 'shown', name: title, step: line.steps, says: line.says, because: line.restsOn }),
      ),
    ),
    ...shown.beside.map((says): Row => ({ kind: 'not looked at', says })),
  ]
}
