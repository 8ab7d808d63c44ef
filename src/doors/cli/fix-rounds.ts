import type { Edit, Finding, TextChange } from '../../findings/finding.ts'
import type { SourceText } from '../../text/source-text.ts'

/** An edit of one round: all of its changes are made, or none. */
export interface ChosenEdit {
  readonly finding: Finding
  readonly edit: Edit
}

/**
 * The edits of findings that can be made side by side, in the order of the findings: no two touch one another, none
 * changes nothing, each once. What does not fit waits for the next round, when its finding is told anew.
 */
export function editsOfRound(
  findings: readonly Finding[],
  sources: ReadonlyMap<string, SourceText>,
): readonly ChosenEdit[] {
  const chosen: ChosenEdit[] = []
  const taken: TextChange[] = []
  for (const finding of findings) {
    const { edit } = finding
    if (edit === undefined || edit.afterLooking || edit.changes.length === 0) continue
    if (!edit.changes.every((change) => isWithin(change, sources))) continue
    if (edit.changes.every((change) => replacedText(change, sources) === change.newText)) continue
    if (
      edit.changes.some((change, index) =>
        [...taken, ...edit.changes.slice(0, index)].some((other) => touch(change, other)),
      )
    )
      continue
    chosen.push({ finding, edit })
    taken.push(...edit.changes)
  }
  return chosen
}

/** The texts of files after the changes; a file that ends its lines with CR LF gets such line ends. */
export function withChanges(
  edits: readonly ChosenEdit[],
  sources: ReadonlyMap<string, SourceText>,
): ReadonlyMap<string, string> {
  const byFile = new Map<string, TextChange[]>()
  for (const change of edits.flatMap(({ edit }) => edit.changes))
    byFile.set(change.at.file, [...(byFile.get(change.at.file) ?? []), change])
  return new Map(
    [...byFile].map(([file, changes]) => {
      const text = sources.get(file)?.text ?? ''
      const fromBehind = changes.toSorted((a, b) => b.at.start - a.at.start)
      return [file, fromBehind.reduce((before, change) => changed(before, change, text.includes('\r\n')), text)]
    }),
  )
}

function changed(text: string, { at, newText }: TextChange, carriageReturns: boolean): string {
  const typed = carriageReturns ? newText.replace(/\r?\n/g, '\r\n') : newText
  return text.slice(0, at.start) + typed + text.slice(at.end)
}

/** The text that a change takes away. */
export function replacedText({ at }: TextChange, sources: ReadonlyMap<string, SourceText>): string {
  return sources.get(at.file)?.text.slice(at.start, at.end) ?? ''
}

function isWithin({ at }: TextChange, sources: ReadonlyMap<string, SourceText>): boolean {
  const length = sources.get(at.file)?.text.length ?? -1
  return at.start >= 0 && at.start <= at.end && at.end <= length
}

/** Whether two changes have a letter in common, or put something in at the same place. */
function touch({ at: a }: TextChange, { at: b }: TextChange): boolean {
  if (a.file !== b.file) return false
  return (a.start < b.end && b.start < a.end) || a.start === b.start
}
