import {
  PDFAcroCheckBox,
  PDFAcroText,
  PDFBool,
  PDFCheckBox,
  PDFDocument,
  type PDFFont,
  PDFHexString,
  PDFName,
  PDFTextField,
} from '@cantoo/pdf-lib'
import fontkit from '@pdf-lib/fontkit'

/** Where a blank of the print stands: page from 1, points from the upper left corner. */
export interface BlankPlace {
  readonly name: string
  readonly kind: 'text' | 'tick'
  /** What a reader who listens is told. */
  readonly says: string
  readonly page: number
  readonly x: number
  readonly y: number
  readonly width: number
  readonly height: number
}

/**
 * Lays form fields over the blanks of a printed checklist (ISO 32000-1, 12.7). A name that stands at several places is one
 * field: what is typed at one shows at all. The document claims no standard. The same input gives the same bytes.
 */
export async function fillablePdf(
  bytes: Uint8Array,
  blanks: readonly BlankPlace[],
  fontBytes: Uint8Array,
): Promise<Uint8Array> {
  const pdf = await PDFDocument.load(bytes, { updateMetadata: false })
  pdf.registerFontkit(fontkit)
  // Whole, as nobody knows what will be typed.
  const font = await pdf.embedFont(fontBytes, { subset: false, customName: 'SourceSans3-Regular' })
  const form = pdf.getForm()
  for (const places of byName(blanks).values()) addField(pdf, form, font, places)
  for (const page of pdf.getPages()) page.node.set(PDFName.of('Tabs'), PDFName.of('S'))
  form.updateFieldAppearances(font)
  form.acroForm.dict.set(PDFName.of('NeedAppearances'), PDFBool.False)
  return pdf.save({ useObjectStreams: true, updateFieldAppearances: false })
}

type Form = ReturnType<PDFDocument['getForm']>

function addField(pdf: PDFDocument, form: Form, font: PDFFont, places: readonly BlankPlace[]): void {
  const [first] = places
  if (first === undefined) return
  const field = first.kind === 'tick' ? tickField(pdf) : textField(pdf)
  // Not by the form's own functions: they look through all fields for each new one.
  field.acroField.setPartialName(first.name)
  form.acroForm.addField(field.acroField.ref)
  field.acroField.dict.set(PDFName.of('TU'), PDFHexString.fromText(first.says === '' ? first.name : first.says))
  for (const place of places) {
    const page = pdf.getPages()[place.page - 1]
    if (page === undefined) continue
    const { x, width, height } = place
    const y = page.getHeight() - place.y - height
    if ('setFontSize' in field) field.addToPage(page, { x, y, width, height, borderWidth: 0, font })
    // Inside the printed box, whose frame stays.
    else field.addToPage(page, { x: x + 1, y: y + 1, width: width - 2, height: height - 2, borderWidth: 0 })
  }
  if ('setFontSize' in field) field.setFontSize(Math.min(11, Math.max(7, Math.floor(first.height * 0.6))))
}

function tickField(pdf: PDFDocument): PDFCheckBox {
  const acroField = PDFAcroCheckBox.create(pdf.context)
  return PDFCheckBox.of(acroField, acroField.ref, pdf)
}

function textField(pdf: PDFDocument): PDFTextField {
  const acroField = PDFAcroText.create(pdf.context)
  return PDFTextField.of(acroField, acroField.ref, pdf)
}

function byName(blanks: readonly BlankPlace[]): ReadonlyMap<string, readonly BlankPlace[]> {
  const found = new Map<string, BlankPlace[]>()
  for (const blank of blanks) {
    if (blank.width < 4 || blank.height < 4) continue
    const before = found.get(blank.name)
    if (before === undefined) found.set(blank.name, [blank])
    else before.push(blank)
  }
  return found
}
