import { type CodeAction, CodeActionKind, type TextEdit } from 'vscode-languageserver/node'
import type { Finding, TextChange } from '../../findings/finding.ts'
import { type SourceText, sourceText } from '../../text/source-text.ts'
import { type Fix, fixesAt } from '../../writing/fixes.ts'
import { diagnosticOf } from './diagnostics.ts'
import { rangeIn } from './ranges.ts'

interface Asked {
  readonly findings: readonly Finding[]
  readonly sources: readonly SourceText[]
  readonly file: string
  readonly start: number
  readonly end: number
  /** Kinds of actions that are wanted; null: all. */
  readonly only: readonly string[] | null
  readonly uriOf: (file: string) => string
}

/** What can be changed for the findings at the cursor; and everything that is certain, in one go. */
export function codeActions(asked: Asked): CodeAction[] {
  const { findings, sources, file, start, end, uriOf } = asked
  const actions: CodeAction[] = []
  if (wants(asked, CodeActionKind.QuickFix))
    for (const fix of fixesAt(findings, file, start, end))
      actions.push({
        title: fix.title,
        kind: CodeActionKind.QuickFix,
        diagnostics: [diagnosticOf(fix.finding, sources, uriOf)],
        isPreferred: fix.preferred,
        edit: { changes: editsOf(fix.changes, asked) },
      })
  if (asked.only?.some((kind) => kind.startsWith(CodeActionKind.Source)) !== true) return actions
  const certain = fixesAt(findings, file, 0, Number.MAX_SAFE_INTEGER).filter(({ preferred }) => preferred)
  const changes = apart(certain)
  if (changes.length > 0)
    actions.push({
      title: 'Make every change that is certain',
      kind: CodeActionKind.SourceFixAll,
      edit: { changes: editsOf(changes, asked) },
    })
  return actions
}

const wants = ({ only }: Asked, kind: string): boolean =>
  only === null || only.some((one) => kind === one || kind.startsWith(`${one}.`) || one.startsWith(`${kind}.`))

/** Changes that do not meet: of two that do, the first. */
function apart(fixes: readonly Fix[]): readonly TextChange[] {
  const taken: TextChange[] = []
  for (const { changes } of fixes) {
    const meets = changes.some(({ at }) =>
      taken.some((other) => other.at.file === at.file && at.start <= other.at.end && other.at.start <= at.end),
    )
    if (!meets) taken.push(...changes)
  }
  return taken
}

function editsOf(changes: readonly TextChange[], { sources, uriOf }: Asked): Record<string, TextEdit[]> {
  const edits: Record<string, TextEdit[]> = {}
  for (const { at, newText } of changes) {
    const uri = uriOf(at.file)
    const source = sources.find(({ path }) => path === at.file) ?? sourceText(at.file, '')
    edits[uri] = [...(edits[uri] ?? []), { range: rangeIn(source, at), newText }]
  }
  return edits
}
