import { copyFileSync, existsSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { MadeAnswer } from '../wire.ts'
import { folderInside, makeProcedureFile, type ProcedureShelf, readProcedureFile } from './procedure-files.ts'

/** A new procedure from what was asked: number and title, and what the first text says. */
export function makeNew(shelf: ProcedureShelf, fields: Readonly<Record<string, unknown>>): MadeAnswer {
  const title = typed(fields.title)
  if (title === '') return { kind: 'failed', because: 'it needs a title.' }
  return makeProcedureFile(shelf, title, firstText(typed(fields.number), title, today()))
}

/** A copy under another number and title, as a draft, with its figures. */
export function makeCopy(shelf: ProcedureShelf, file: string, number: string, title: string): MadeAnswer {
  const original = readProcedureFile(shelf, file)
  if (original === null) return { kind: 'failed', because: 'the procedure is no longer there.' }
  if (title.trim() === '') return { kind: 'failed', because: 'it needs a title.' }
  const made = makeProcedureFile(shelf, title, asCopy(original.text, number.trim(), title.trim(), today()))
  if (made.kind === 'made') copyFigures(shelf, file, made.file)
  return made
}

function copyFigures(shelf: ProcedureShelf, from: string, to: string): void {
  const figures = join(shelf.root, dirname(from), 'figures')
  if (!existsSync(figures)) return
  const target = folderInside(shelf.root, join(dirname(to), 'figures'))
  if (target === null) return
  for (const entry of readdirSync(figures, { withFileTypes: true }))
    if (entry.isFile()) copyFileSync(join(figures, entry.name), join(target, entry.name))
}

/** The front matter of a copy: its own number and title, a draft of today that nobody has approved. */
function asCopy(text: string, number: string, title: string, date: string): string {
  const end = text.indexOf('\n---', 3)
  if (!text.startsWith('---') || end < 0) return text
  const front = text
    .slice(0, end)
    .replace(/^approvals:.*\n(?:[ \t-].*(?:\n|$))*/m, '')
    .replace(/^number:.*$/m, () => `number: ${number === '' ? '??' : number}`)
    .replace(/^title:.*$/m, () => `title: ${quoted(title)}`)
    .replace(/^status:.*$/m, 'status: draft')
    .replace(/^date:.*$/m, `date: ${date}`)
  const body = text.slice(end).replace(/^# .*$/m, () => `# ${title}`)
  return `${front.trimEnd()}${body}`
}

function firstText(number: string, title: string, date: string): string {
  return `---
number: ${number === '' ? '??' : number}
title: ${quoted(title)}
revision: A
status: draft
date: ${date}
---

# ${title}

## Make safe {#make-safe}

1. 
`
}

const quoted = (title: string): string => JSON.stringify(title)

const typed = (value: unknown): string => (typeof value === 'string' ? value.trim().replace(/\s+/g, ' ') : '')

const today = (): string => new Date().toISOString().slice(0, 10)
