import type { ChangeSet } from '@codemirror/state'
import { EditorView } from '@codemirror/view'
import type { CheckAnswer, StepMark } from '../wire.ts'

/** The procedure that is open, and what is known of it. One at a time; what changes here, changes by what people do. */
export interface Session {
  readonly view: EditorView
  file: string
  /** What stands on the disk as far as we know, and its hash. */
  base: string
  hash: string
  /** The last answer of the compiler, with its places as they were sent. */
  answer: CheckAnswer | null
  /** What was typed since the text of that answer. */
  since: ChangeSet | null
}

export function textOf(session: Session): string {
  return session.view.state.doc.toString()
}

/** A place of the last answer in the text as it stands now. */
export function placeNow(session: Session, start: number, end: number): { readonly from: number; readonly to: number } {
  const { length } = session.view.state.doc
  const at = (offset: number, side: number) =>
    Math.min(
      length,
      session.since === null ? offset : session.since.mapPos(Math.min(offset, session.since.length), side),
    )
  const from = at(start, 1)
  return { from, to: Math.max(from, at(end, -1)) }
}

/** The step or phase in which the cursor stands, or null above the first. */
export function stepAtCursor(session: Session): StepMark | null {
  const { head } = session.view.state.selection.main
  const steps = session.answer?.steps ?? []
  let found: StepMark | null = null
  for (const step of steps) {
    if (placeNow(session, step.start, step.start).from > head) break
    found = step
  }
  return found
}

/** Puts the cursor at a place and shows it in the middle of the window. */
export function goTo(session: Session, from: number, focus = true): void {
  const { view } = session
  const head = Math.min(from, view.state.doc.length)
  view.dispatch({ selection: { anchor: head }, effects: EditorView.scrollIntoView(head, { y: 'center' }) })
  if (focus) view.focus()
}
