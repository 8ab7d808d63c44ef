import { readFileSync } from 'node:fs'
import { createRequire } from 'node:module'
import { dirname, join } from 'node:path'
import type { NodeCompiler, NodeError, NodeTypstDocument } from '@myriaddreamin/typst-ts-node-compiler'
import type { PrintSources } from '../../outputs/checklist/checklist-sources.ts'
import { type BlankPlace, fillablePdf } from './fillable-pdf.ts'
import { charactersOf } from './font-coverage.ts'
import { layoutFaults, numberFaults, type PageNumber, type PositionMark } from './position-check.ts'
import { unprintableSentence, unprintableTexts } from './unprintable-text.ts'

export interface Typesetter {
  /** The PDF of the sources; the same sources give the same bytes. Rejects with one readable message. */
  readonly render: (sources: PrintSources) => Promise<Uint8Array>
  /** The same, with what was measured on the way. */
  readonly typeset: (sources: PrintSources) => Promise<TypesetDocument>
  /** The same pages as one picture, one below the other, for a screen. */
  readonly picture: (sources: PrintSources) => Promise<TypesetPicture>
  /** A PDF with form fields over its blanks, from sources that were asked to be fillable. */
  readonly fillable: (sources: PrintSources) => Promise<Uint8Array>
}

export interface TypesetDocument {
  readonly bytes: Uint8Array
  readonly pages: number
  readonly marks: readonly PositionMark[]
  /** Empty unless the sources are fillable. */
  readonly blanks: readonly BlankPlace[]
}

export interface TypesetPicture {
  readonly svg: string
  readonly pages: number
  readonly marks: readonly PositionMark[]
}

export interface MissingTypesetter {
  /** One sentence that says what is not installed. */
  readonly missing: string
}

/** First match wins; the second family has the signs and letters that the first lacks. */
const fontFiles: readonly (readonly [packageName: string, ...path: string[]])[] = [
  ['source-sans', 'TTF', 'SourceSans3-Regular.ttf'],
  ['source-sans', 'TTF', 'SourceSans3-It.ttf'],
  ['source-sans', 'TTF', 'SourceSans3-Semibold.ttf'],
  ['source-sans', 'TTF', 'SourceSans3-Bold.ttf'],
  ['source-sans', 'TTF', 'SourceSans3-BoldIt.ttf'],
  ['dejavu-fonts-ttf', 'ttf', 'DejaVuSans.ttf'],
  ['dejavu-fonts-ttf', 'ttf', 'DejaVuSans-Bold.ttf'],
  ['dejavu-fonts-ttf', 'ttf', 'DejaVuSans-Oblique.ttf'],
]

/** A root that does not exist: a template can read nothing but the files it is handed. */
const root = process.platform === 'win32' ? 'C:\\__print__' : '/__print__'
const separator = process.platform === 'win32' ? '\\' : '/'

/**
 * The typesetter of this machine (Typst, in this process, no network and no disk but its own fonts), or what is missing.
 * The engine is a native program that its package brings for each system; where that was left out, nothing else fails.
 */
export function loadTypesetter(): Typesetter | MissingTypesetter {
  const require = createRequire(import.meta.url)
  let engine: { readonly NodeCompiler: typeof NodeCompiler }
  try {
    engine = require('@myriaddreamin/typst-ts-node-compiler')
  } catch {
    return {
      missing: `Checklists cannot be typeset here: the program for ${process.platform}-${process.arch} is not installed (run npm install again without leaving out optional packages).`,
    }
  }
  let fonts: readonly Buffer[]
  try {
    fonts = fontFiles.map(([packageName, ...path]) =>
      readFileSync(join(dirname(require.resolve(`${packageName}/package.json`)), ...path)),
    )
  } catch {
    return {
      missing: 'Checklists cannot be typeset here: the font packages are not installed (run npm install again).',
    }
  }
  const compiler = engine.NodeCompiler.create({ workspace: root, fontArgs: [{ fontBlobs: [...fonts] }] })
  const covered = fonts.map(charactersOf)
  const canDraw = (code: number) => covered.some((characters) => characters.has(code))
  const typesetAs = oneAtATime(
    async ({ sources, write }: { readonly sources: PrintSources; readonly write: WriteDocument }) => {
      try {
        return await typesetWith(compiler, canDraw, sources, write)
      } catch (error) {
        const careful = error instanceof LayoutFault ? inCare(sources) : null
        if (careful === null) throw error
        return typesetWith(compiler, canDraw, careful, write)
      }
    },
  )
  const typeset = (sources: PrintSources) => typesetAs({ sources, write: asPdf })
  return {
    typeset,
    picture: async (sources) => {
      const { bytes, pages, marks } = await typesetAs({ sources, write: asPicture })
      return { svg: new TextDecoder().decode(bytes), pages, marks }
    },
    render: async (sources) => (await typeset(sources)).bytes,
    fillable: async (sources) => {
      const { bytes, blanks } = await typeset({ ...sources, standard: null })
      return fillablePdf(bytes, blanks, fonts[0] ?? new Uint8Array())
    },
  }
}

/** The compiler has one set of files at a time. */
function oneAtATime<Input, Output>(work: (input: Input) => Promise<Output>): (input: Input) => Promise<Output> {
  let last: Promise<unknown> = Promise.resolve()
  return (input) => {
    const next = last.then(() => work(input))
    last = next.catch(() => undefined)
    return next
  }
}

type WriteDocument = (
  compiler: NodeCompiler,
  document: NodeTypstDocument,
  standard: PrintSources['standard'],
) => Uint8Array

class LayoutFault extends Error {}

/** The same with every step measured before it is set; null where it was so already. */
function inCare(sources: PrintSources): PrintSources | null {
  const isSheet = (file: PrintSources['files'][number]) => file.path === 'sheet.json' && 'text' in file
  const sheet = sources.files.find(isSheet)
  if (!sheet || !('text' in sheet) || !sheet.text.includes('"careful":false')) return null
  const text = sheet.text.replace('"careful":false', '"careful":true')
  return { ...sources, files: sources.files.map((file) => (isSheet(file) ? { ...file, text } : file)) }
}

async function typesetWith(
  compiler: NodeCompiler,
  canDraw: (code: number) => boolean,
  sources: PrintSources,
  write: WriteDocument,
): Promise<TypesetDocument> {
  refuseUnprintable(sources, canDraw)
  try {
    compiler.resetShadow()
    for (const file of sources.files) {
      const content = 'text' in file ? Buffer.from(file.text) : Buffer.from(file.base64, 'base64')
      compiler.mapShadow(inRoot(file.path), content)
    }
    const result = compiler.compile({ mainFilePath: inRoot(sources.main) })
    const document = result.result
    if (!document) throw new Error(brokenPictures(compiler, sources) ?? readable(compiler, result.takeError()))
    const [marks = []]: PositionMark[][] = compiler.query(document, { selector: '<places>', field: 'value' })
    const bottoms: number[] = compiler.query(document, { selector: '<body-bottom>', field: 'value' })
    const numbers: PageNumber[] = compiler.query(document, { selector: '<page-number>', field: 'value' })
    // Lists that borrow the compiler print no such numbers.
    const misnumbered = numbers.length === 0 ? [] : numberFaults(numbers, document.numOfPages)
    const faults = [...layoutFaults(marks, bottoms[0] ?? 0), ...misnumbered]
    if (faults.length > 0) throw new LayoutFault(`The checklist does not fit its pages. ${faults.join(' ')}`)
    const blanks: BlankPlace[] = compiler.query(document, { selector: '<blank>', field: 'value' })
    return { bytes: write(compiler, document, sources.standard), pages: document.numOfPages, marks, blanks }
  } finally {
    // Else each document stays in memory. What this one used stays till the next has been set, which looks much the same;
    // what is native is let go only when the event loop turns.
    compiler.evictCache(1)
    await new Promise((turned) => setImmediate(turned))
  }
}

function asPdf(compiler: NodeCompiler, document: NodeTypstDocument, standard: PrintSources['standard']): Uint8Array {
  try {
    return new Uint8Array(compiler.pdf(document, standard === null ? {} : { pdfStandard: standard }))
  } catch (error) {
    // The engine reports the rule of the standard that was broken inside a long listing.
    const rules = [...String(error).matchAll(/message: "([^"]*)"/g)].map((match) => match[1])
    throw new Error(`The checklist could not be written as PDF. ${rules.join('; ') || 'No reason was given.'}`)
  }
}

function asPicture(compiler: NodeCompiler, document: NodeTypstDocument): Uint8Array {
  return new TextEncoder().encode(compiler.plainSvg(document))
}

const inRoot = (path: string): string => `${root}${separator}${path.replaceAll('/', separator)}`

/** Without fallback a character that no font has would leave a gap that nobody sees. */
function refuseUnprintable(sources: PrintSources, canDraw: (code: number) => boolean): void {
  const sheet = sources.files.find((file) => file.path === 'sheet.json')
  if (!sheet || !('text' in sheet)) return
  const found = unprintableTexts(JSON.parse(sheet.text), canDraw)
  if (found.length > 0) throw new Error(found.map(unprintableSentence).join(' '))
}

/** Each picture tried alone, once a document has failed: the engine does not say which one it could not read. */
function brokenPictures(compiler: NodeCompiler, sources: PrintSources): string | null {
  const sentences = sources.files.flatMap((file) => {
    if (file.pictureName === undefined) return []
    compiler.mapShadow(inRoot('one-picture.typ'), Buffer.from(`#image("/${file.path}")`))
    const result = compiler.compile({ mainFilePath: inRoot('one-picture.typ') })
    if (result.result) return []
    const error = result.takeError()
    const reason = error ? String(compiler.fetchDiagnostics(error)[0]?.message ?? '') : ''
    return [`The figure ${file.pictureName} cannot be drawn: ${reason || 'it is no picture that can be read'}.`]
  })
  return sentences.length === 0 ? null : sentences.join(' ')
}

/** What the engine says, by file. */
function readable(compiler: NodeCompiler, error: NodeError | null): string {
  if (!error) return 'The checklist could not be typeset.'
  const lines = compiler.fetchDiagnostics(error).map((one) => {
    const at = one.range?.start ? `, line ${one.range.start.line + 1}` : ''
    return `${String(one.path ?? '').replace(root, '')}${at}: ${one.message}`
  })
  return `The checklist could not be typeset. ${lines.join('; ')}`
}
