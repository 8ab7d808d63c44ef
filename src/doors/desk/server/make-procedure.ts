import { copyFileSync, existsSync, readdirSync } from 'node:fs'
import { dirname, join } from 'node:path'
import type { LibraryReader } from '../../../library/library-reader.ts'
import { readMachine } from '../../../library/read-machine.ts'
import { valueAt } from '../../../syntax/block-node.ts'
import { identifierFrom } from '../../../text/identifier.ts'
import { newProcedure } from '../../../writing/new/new-procedure.ts'
import { type Answers, jobKinds, type MachineFacts } from '../../../writing/new/questions.ts'
import type { MadeAnswer } from '../wire.ts'
import type { Fields } from './desk.ts'
import { folderInside, makeProcedureFile, type ProcedureShelf, readProcedureFile } from './procedure-files.ts'

/** A new procedure from the answers to the questions. */
export function makeNew(shelf: ProcedureShelf, fields: Fields): MadeAnswer {
  const title = typed(fields.title)
  if (title === '') return { kind: 'failed', because: 'it needs a title.' }
  const kind = jobKinds.find((one) => one === fields.kind) ?? 'service'
  const answers: Answers = {
    title,
    number: typed(fields.number) === '' ? null : typed(fields.number),
    date: today(),
    kind,
    equipment: typed(fields.equipment) === '' ? (title.split(':')[0] ?? title) : typed(fields.equipment),
    machine: machineFacts(shelf.reader, typed(fields.machine)),
    isolation: fields.isolation === 'yes',
    pressure: fields.pressure === 'yes',
    guard: fields.guard === 'yes',
    lift: fields.lift === 'yes',
    hotWork: fields.hotWork === 'yes',
    positions: [
      ...new Set(
        typed(fields.positions)
          .split(/[\s,]+/)
          .map(identifierFrom),
      ),
    ].filter((one) => one !== 'unnamed'),
  }
  return makeProcedureFile(shelf, title, newProcedure(answers))
}

/** The names of the machine files of the library. */
export function machinesOf(reader: LibraryReader): readonly string[] {
  return reader
    .listFolder('shared/machines')
    .filter((path) => path.endsWith('.yaml'))
    .map((path) => path.slice('shared/machines/'.length, -'.yaml'.length))
}

function machineFacts(reader: LibraryReader, id: string): MachineFacts | null {
  if (!machinesOf(reader).includes(id)) return null
  const machine = readMachine(reader, id).value.value ?? undefined
  const energies = valueAt(machine, 'energies')
  const points = valueAt(machine, 'isolation-points')
  return {
    id,
    energies:
      energies?.kind !== 'map'
        ? []
        : energies.entries.map(({ key, value }) => {
            const kind = valueAt(value, 'kind')
            return { id: key, kind: kind?.kind === 'scalar' ? kind.text : '' }
          }),
    isolationPoints: points?.kind === 'map' ? points.entries.map(({ key }) => key) : [],
  }
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

const quoted = (title: string): string => JSON.stringify(title)

const typed = (value: unknown): string => (typeof value === 'string' ? value.trim().replace(/\s+/g, ' ') : '')

const today = (): string => new Date().toISOString().slice(0, 10)
