import type { StepFile } from '../../step-file/step-file.ts'

/** A document as the audit of a library names it. */
export interface AuditedDocument {
  /** Its folder, beside the audit. */
  readonly folder: string
  /** `KRQ-HT-021 rev A` */
  readonly name: string
  readonly title: string
  readonly status: string
  readonly machineId: string
  /** Name of the machine, or that none is named. */
  readonly machine: string
  readonly stepFile: StepFile
}

/** In the order of number and revision, whatever order they come in. */
export function auditedDocuments(
  documents: readonly { readonly folder: string; readonly stepFile: StepFile }[],
): readonly AuditedDocument[] {
  return documents
    .map(({ folder, stepFile }) => ({
      folder,
      name: `${stepFile.document.number} rev ${stepFile.document.revision}`,
      title: stepFile.document.title,
      status: stepFile.document.status,
      machineId: stepFile.machine?.id ?? '',
      machine: stepFile.machine?.name ?? 'no machine named',
      stepFile,
    }))
    .sort((a, b) => (a.name < b.name ? -1 : a.name > b.name ? 1 : 0))
}
