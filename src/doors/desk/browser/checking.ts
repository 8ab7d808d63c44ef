import { ChangeSet } from '@codemirror/state'
import type { CheckAnswer } from '../wire.ts'
import { ask } from './ask.ts'
import { type Session, textOf } from './session.ts'

export interface Checking {
  /** The text changed: it is looked at as soon as the last look is done. */
  readonly typed: (changes: ChangeSet) => void
  /** Looks now, whatever was looked at before. */
  readonly again: () => void
  /** Resolves when the answer is of the text as it stands. */
  readonly settled: () => Promise<void>
}

/**
 * Asks the compiler about the text, one question at a time: while it thinks, what is typed waits and goes with the
 * next one. An answer of another procedure or an older question is dropped.
 */
export function startChecking(
  session: Session,
  answered: (answer: CheckAnswer) => void,
  lost: (isLost: boolean) => void,
): Checking {
  let version = 0
  let shown = 0
  let isAsking = false
  let isDue = false
  let sinceAsked: ChangeSet | null = null
  let waiting: (() => void)[] = []

  const look = async (): Promise<void> => {
    if (isAsking || session.file === '') {
      isDue = true
      return
    }
    isAsking = true
    isDue = false
    const { file } = session
    const text = textOf(session)
    sinceAsked = ChangeSet.empty(session.view.state.doc.length)
    const asked = ++version
    try {
      const answer = await ask<CheckAnswer>('check', { file, version: asked, text })
      lost(false)
      if (answer !== null && answer.version === asked && asked > shown && file === session.file) {
        shown = asked
        session.answer = answer
        session.since = sinceAsked
        answered(answer)
      }
    } catch {
      lost(true)
      setTimeout(() => void look(), 1500)
    }
    isAsking = false
    if (isDue) return look()
    for (const done of waiting) done()
    waiting = []
  }
  return {
    typed: (changes) => {
      sinceAsked = sinceAsked === null ? null : sinceAsked.compose(changes)
      if (session.since !== null) session.since = composed(session.since, changes)
      isDue = true
      // After the keystroke is on the screen.
      setTimeout(() => void look())
    },
    again: () => void look(),
    settled: () => (isAsking || isDue ? new Promise((done) => waiting.push(done)) : Promise.resolve()),
  }
}

function composed(before: ChangeSet, changes: ChangeSet): ChangeSet {
  return before.newLength === changes.length ? before.compose(changes) : ChangeSet.empty(changes.newLength)
}
