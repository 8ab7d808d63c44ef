import { existsSync, readdirSync, realpathSync, statSync } from 'node:fs'
import { basename, join, relative, sep } from 'node:path'
import { parseDocument } from 'yaml'
import type { LibraryReader } from '../../../library/library-reader.ts'
import type { ProcedureLine } from '../wire.ts'

/** Folders in which no trainer keeps a procedure. */
const passedBy = new Set(['node_modules', 'out', 'figures', 'fragments'])

/** Where procedures are looked for and new ones made: `procedures` of the library where there is one, else the folder itself. */
export function folderOfProcedures(root: string, asked: string): string {
  const usual = join(root, 'procedures')
  if (realpathSync(asked) === realpathSync(root) && existsSync(usual) && statSync(usual).isDirectory())
    return 'procedures'
  return relative(realpathSync(root), realpathSync(asked)).split(sep).join('/')
}

/** Paths in the library of every procedure below a folder, in their order. Links are not followed. */
export function procedureFiles(root: string, folder: string): readonly string[] {
  const files: string[] = []
  const visit = (path: string): void => {
    for (const entry of entriesIn(join(root, path))) {
      const inside = path === '' ? entry.name : `${path}/${entry.name}`
      if (entry.name.startsWith('.')) continue
      if (entry.isDirectory()) {
        if (!passedBy.has(entry.name)) visit(inside)
      } else if (entry.isFile() && isProcedure(entry.name)) files.push(inside)
    }
  }
  visit(folder)
  return files.sort()
}

function entriesIn(folder: string) {
  try {
    return readdirSync(folder, { withFileTypes: true })
  } catch {
    // A folder that cannot be read holds nothing that could be opened.
    return []
  }
}

function isProcedure(name: string): boolean {
  return name.endsWith('.md') && name.toLowerCase() !== 'readme.md'
}

/** What the list shows of a procedure, from its front matter as typed. */
export function procedureLine(file: string, reader: LibraryReader): ProcedureLine {
  const answer = reader.readText(file)
  const text = answer.kind === 'text' ? answer.text : ''
  const front = /^---\r?\n([\s\S]*?)\r?\n---/.exec(text)?.[1] ?? ''
  const values = frontValues(front)
  return {
    file,
    number: values('number'),
    title: values('title') || basename(file, '.md').replaceAll('-', ' '),
    revision: values('revision'),
    status: values('status'),
  }
}

function frontValues(front: string): (key: string) => string {
  const document = parseDocument(front, { schema: 'failsafe' })
  return (key) => {
    try {
      const value: unknown = document.get(key)
      return typeof value === 'string' ? value : ''
    } catch {
      return ''
    }
  }
}
