import type { StepFile } from '../../step-file/step-file.ts'
import { shownProof } from '../../wording/proof-text.ts'
import { csvText } from './csv-text.ts'
import { acceptedLines, exposureLines } from './exposure-lines.ts'
import { headcountLines, holdLines, shownGroups, unsignedProofLines } from './proof-lines.ts'

const COLUMNS = ['kind', 'name', 'step', 'position', 'who', 'says', 'proves', 'because'] as const
type Row = { readonly kind: string } & { readonly [Column in (typeof COLUMNS)[number]]?: string }

/** The audit as a table: exposures and acceptances first, then signatures, proofs, findings, and what was shown and what not. */
export function auditCsv(stepFile: StepFile): string {
  const { number, revision } = stepFile.document
  const cells = auditRows(stepFile).map((row) => [number, revision, ...COLUMNS.map((column) => row[column] ?? '')])
  return csvText([['document', 'revision', ...COLUMNS], ...cells])
}

function auditRows(stepFile: StepFile): readonly Row[] {
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
