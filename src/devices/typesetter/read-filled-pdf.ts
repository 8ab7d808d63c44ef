import { EncryptedPDFError, PDFCheckBox, PDFDocument, PDFTextField } from '@cantoo/pdf-lib'

export interface FilledPdf {
  readonly texts: ReadonlyMap<string, string>
  /** Names of the boxes that are ticked. */
  readonly ticks: ReadonlySet<string>
  readonly keywords: string
  /** The step file that is attached, as text; null where there is none. */
  readonly steps: string | null
}

/** What stands in the fields of a PDF; `locked` where it asks for a password, null where it cannot be read as a PDF. */
export async function readFilledPdf(bytes: Uint8Array): Promise<FilledPdf | 'locked' | null> {
  try {
    const pdf = await PDFDocument.load(bytes, { updateMetadata: false })
    const texts = new Map<string, string>()
    const ticks = new Set<string>()
    for (const field of pdf.getForm().getFields()) {
      if (field instanceof PDFTextField) texts.set(field.getName(), field.getText() ?? '')
      if (field instanceof PDFCheckBox && field.isChecked()) ticks.add(field.getName())
    }
    const attached = pdf.getAttachments().find(({ name }) => name === 'steps.json')
    const steps = attached === undefined ? null : new TextDecoder().decode(attached.data)
    return { texts, ticks, keywords: pdf.getKeywords() ?? '', steps }
  } catch (error) {
    return error instanceof EncryptedPDFError ? 'locked' : null
  }
}
