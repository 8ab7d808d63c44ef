import { readFileSync, statSync } from 'node:fs'
import { join, resolve } from 'node:path'
import { readFilledPdf } from '../../devices/typesetter/read-filled-pdf.ts'
import { writeFile } from '../../devices/write-output.ts'
import { entriesOfCopy, ticksAgainstLimits } from '../../outputs/checklist/filled-copy.ts'
import { makeJob } from '../../record/make-job.ts'
import { makeRecord, recordFileName } from '../../record/make-record.ts'
import type { Remark } from '../../record/remark.ts'
import { tellRecord } from '../../record/tell-record.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import type { Program } from './program.ts'
import { shownPath } from './shown-path.ts'
import type { Surroundings } from './surroundings.ts'

export interface ReadBackOptions {
  /** A step file at hand that the copy must be of; else the one that it carries. */
  readonly steps?: string
  /** Folder for the record. */
  readonly out: string
}

/** In bytes. A checklist of some hundred pages with pictures has a few megabytes. */
const LARGEST = 64 * 2 ** 20

/**
 * `witnessmark read-back`: reads a checklist that was filled in on a screen, judges its readings and writes the record.
 * 0: nothing is missing and all is in limit; 1: something is, and the record is written; 2: not read, nothing written.
 */
export async function readBack(
  file: string,
  options: ReadBackOptions,
  program: Program,
  { folder, print, say, now }: Surroundings,
): Promise<number> {
  const refuse = (sentence: string): number => {
    say(`${file}: ${sentence}\n`)
    return 2
  }
  const size = sizeOf(resolve(folder, file))
  if (size !== null && size > LARGEST) return refuse(`is larger than ${LARGEST / 2 ** 20} MB, and no checklist is.`)
  const bytes = size === null ? null : contentOf(resolve(folder, file))
  if (bytes === null) return refuse('cannot be opened.')
  const copy = await readFilledPdf(bytes)
  if (copy === null) return refuse('is no PDF that can be read.')
  if (copy === 'locked') return refuse('is locked with a password. Save it without one, then read it again.')
  if (copy.texts.size + copy.ticks.size === 0)
    return refuse('has no fields. Only a checklist that was built with --fillable is read back.')
  if (copy.steps === null) return refuse('carries no step file, so nobody can say what its fields are for.')
  const stepFile = readSteps(copy.steps, program)
  if (stepFile === null) return refuse('the step file in it was changed, so it is not read.')
  if (!copy.keywords.includes(stepFile.digest))
    return refuse('the step file in it is not the one that this checklist was printed from.')
  if (options.steps !== undefined) {
    const text = contentOf(resolve(folder, options.steps))
    const atHand = text === null ? null : readSteps(new TextDecoder().decode(text), program)
    if (atHand === null) return refuse(`${options.steps} is no step file that can be read.`)
    if (atHand.digest !== stepFile.digest) return refuse(notTheSame(stepFile, atHand, options.steps))
  }
  const job = makeJob(stepFile)
  const entries = entriesOfCopy(stepFile, copy, variantIn(copy.keywords))
  const saved = `${new Date(now()).toISOString().slice(0, 19)}Z`
  const record = makeRecord(job, { entries, source: 'filled-print', saved, photos: new Map() })
  const path = join(resolve(folder, options.out), recordFileName(record))
  const answer = writeFile(path, `${JSON.stringify(record, null, 2)}\n`)
  if (answer.kind === 'failed') return refuse(`the record could not be written: ${answer.because}`)
  const remarks = tellRecord(job, record)
  const ticks = ticksAgainstLimits(stepFile, copy, entries)
  for (const line of [...remarks.map(inShopWords), ...ticks]) print(`${line}\n`)
  const total = remarks.length + ticks.length
  print(
    `${file} → ${shownPath(path, folder)}. ${total === 0 ? 'Nothing is missing and all is in limit.' : `${total} to look at.`}\n`,
  )
  return total === 0 ? 0 : 1
}

/** In bytes; null for what is no file that can be looked at. */
function sizeOf(path: string): number | null {
  try {
    const found = statSync(path)
    return found.isFile() ? found.size : null
  } catch {
    return null
  }
}

function contentOf(path: string): Uint8Array | null {
  try {
    return readFileSync(path)
  } catch {
    return null
  }
}

function readSteps(text: string, program: Program): StepFile | null {
  try {
    return program.readStepFile(text)
  } catch {
    return null
  }
}

function notTheSame(copy: StepFile, atHand: StepFile, name: string): string {
  const of = ({ document, digest }: StepFile) => `${document.number} rev ${document.revision} (${digest.slice(7, 15)})`
  return `it was printed from ${of(copy)}, and ${name} is ${of(atHand)}.`
}

/** `variant wheel-stud=m22` among the words that the file carries. */
function variantIn(keywords: string): Readonly<Record<string, string>> {
  const found = [...keywords.matchAll(/\bvariant ([^\s=,]+)=([^\s,]+)/g)]
  return Object.fromEntries(found.map(([, name = '', value = '']) => [name, value]))
}

const inShopWords = ({ number, says }: Remark): string => (number === '' ? says : `${number}: ${says}`)
