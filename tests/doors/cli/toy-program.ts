import { existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { dirname, join } from 'node:path'
import { libraryOnDisk } from '../../../src/devices/library-on-disk.ts'
import { runCommand } from '../../../src/doors/cli/command-line.ts'
import type { Compiled, Program } from '../../../src/doors/cli/program.ts'
import type { Finding } from '../../../src/findings/finding.ts'
import { withTexts } from '../../../src/library/with-texts.ts'
import type { StepFile } from '../../../src/step-file/step-file.ts'
import { sourceText } from '../../../src/text/source-text.ts'

/**
 * A compiler small enough to see through, for what the command itself does: WRONG is an error, ODD a warning,
 * BREAK makes the compiler fall over, and the rest of a file is never looked at.
 */
export const toyProgram: Program = {
  version: '0.0.0',
  pages: {
    'toy/wrong':
      '# toy/wrong\n\nThe word WRONG is wrong.\n\n## Reported\n\n<!-- expect toy/wrong at "WRONG" -->\n````md\n# A\n\n```yaml\nWRONG: yes\n```\n````\n\n## Fine\n\n````md\nright\n````\n',
    'toy/odd': '# toy/odd\n\nThe word ODD is odd.\n',
  },
  calculators: [],
  openLibrary: (root, texts = new Map()) => {
    const reader = withTexts(libraryOnDisk(root), texts)
    return {
      paper: null,
      findings: [],
      sources: [],
      compile: (file): Compiled => {
        const answer = reader.readText(file)
        const text = answer.kind === 'text' ? answer.text : ''
        if (text.includes('BREAK')) throw new Error('the toy fell over\n    at toy.ts:1')
        const findings = [
          ...found(file, text, 'WRONG', 'error', 'toy/wrong'),
          ...found(file, text, 'ODD', 'warning', 'toy/odd'),
        ]
        const value = (key: string) => new RegExp(`^${key}: (.*)$`, 'm').exec(text)?.[1] ?? ''
        const document = { number: value('number'), revision: value('revision'), status: value('status') }
        const stepFile = { format: 'witnessmark-step-file', file, document } as unknown as StepFile
        const wrong = findings.some((finding) => finding.severity === 'error')
        return { findings, stepFile: wrong ? null : stepFile, sources: [sourceText(file, text)] }
      },
    }
  },
  makeOutputs: async (stepFile) => ({
    files: [
      { name: 'page.html', content: '<html>' },
      { name: 'steps.json', content: JSON.stringify(stepFile) },
    ],
    complaints: [],
  }),
  makeLibraryFiles: async (documents) => ({
    files: [{ name: 'index.html', content: documents.map((document) => document.folder).join('\n') }],
    complaints: [],
  }),
  readStepFile: (text) => JSON.parse(text) as StepFile,
}

function found(
  file: string,
  text: string,
  word: string,
  severity: Finding['severity'],
  name: string,
): readonly Finding[] {
  const start = text.indexOf(word)
  if (start < 0) return []
  return [
    {
      name,
      severity,
      at: { file, start, end: start + word.length },
      message: `It says ${word}.`,
      advice: 'Take it out.',
    },
  ]
}

/** A folder of its own for a test, and the command run in it. */
export function workplace(files: Readonly<Record<string, string | Uint8Array>>) {
  const folder = mkdtempSync(join(tmpdir(), 'witnessmark-cli-'))
  const put = (path: string, content: string | Uint8Array) => {
    mkdirSync(dirname(join(folder, path)), { recursive: true })
    writeFileSync(join(folder, path), content)
  }
  for (const [path, content] of Object.entries(files)) put(path, content)
  return {
    folder,
    put,
    read: (path: string) => readFileSync(join(folder, path), 'utf8'),
    has: (path: string) => existsSync(join(folder, path)),
    /** Every file below a folder, in order. */
    list: (path: string) =>
      existsSync(join(folder, path))
        ? readdirSync(join(folder, path), { recursive: true, withFileTypes: true })
            .filter((entry) => !entry.isDirectory())
            .map((entry) => join(entry.parentPath, entry.name).slice(join(folder, path).length + 1))
            .sort()
        : [],
    remove: () => rmSync(folder, { recursive: true, force: true }),
    run: async (typed: readonly string[], program: Program = toyProgram, terminal = false) => {
      let out = ''
      let err = ''
      const status = await runCommand(
        typed,
        {
          folder,
          print: (text) => {
            out += text
          },
          say: (text) => {
            err += text
          },
          isTerminal: terminal,
          columns: 100,
          noColour: false,
          now: Date.now,
        },
        program,
      )
      return { status, out, err }
    },
  }
}

/** What a person sees, in one piece for a snapshot. */
export function seen(result: { readonly status: number; readonly out: string; readonly err: string }): string {
  return `${result.out}———\n${result.err}——— exit ${result.status}`
}
