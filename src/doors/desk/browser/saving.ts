import { type MergePart, mergedText, mergeLines, textOfParts } from '../merge-lines.ts'
import type { News, ReadAnswer, SaveAnswer } from '../wire.ts'
import { ask, fetchJson, withFile } from './ask.ts'
import { diffChanges } from './diff-changes.ts'
import { button, byId, make, openDialog, say } from './elements.ts'
import { type Session, textOf } from './session.ts'

export interface Saving {
  /** The text changed: it is saved once nothing was typed for a while. */
  readonly typed: () => void
  /** Saves what is not saved yet; resolves when that is done or refused. */
  readonly now: () => Promise<void>
  readonly heard: (news: News) => void
}

/** How long nothing is typed before the text is saved, in milliseconds. */
const quiet = 1200

/**
 * Saves by itself. The file is written only where it is still the one that was read; what others wrote meanwhile is
 * merged where the two do not touch, and asked about where they do.
 */
export function startSaving(session: Session): Saving {
  const says = byId('saved')
  let timer = 0
  let isBusy = false
  let isAsking = false
  const tell = (words: string, isBad = false): void => {
    says.textContent = words
    says.classList.toggle('is-bad', isBad)
  }
  const isClean = (): boolean => textOf(session) === session.base

  let running: Promise<void> = Promise.resolve()
  const save = (): Promise<void> => {
    clearTimeout(timer)
    running = running.then(saveOnce)
    return running
  }
  const saveOnce = async (): Promise<void> => {
    if (isAsking || session.file === '' || isClean()) return
    isBusy = true
    const { file } = session
    const text = textOf(session)
    tell('Saving…')
    try {
      const answer = await ask<SaveAnswer>('save', { file, hash: session.hash, text })
      if (file === session.file) settle(answer, text)
    } catch {
      tell('Not saved: the desk was closed. Open it again; what you typed stands here.', true)
      timer = window.setTimeout(() => void save(), 2500)
    }
    isBusy = false
    if (!isClean() && !isAsking) timer = window.setTimeout(() => void save(), quiet)
  }
  const settle = (answer: SaveAnswer | null, text: string): void => {
    if (answer?.kind === 'saved') {
      session.base = text
      session.hash = answer.hash
      tell('Saved')
    } else if (answer?.kind === 'changed') takeIn(answer.text, answer.hash)
    else tell(`Not saved: ${answer?.because ?? 'the file is no longer there.'}`, true)
  }
  /** Another hand wrote the file. */
  const takeIn = (theirs: string, hash: string): void => {
    const parts = mergeLines(session.base, textOf(session), theirs)
    const merged = mergedText(parts)
    const finish = (text: string, words: string): void => {
      session.base = theirs
      session.hash = hash
      session.view.dispatch({ changes: [...diffChanges(textOf(session), text)], userEvent: 'input.merge' })
      tell(words)
      say(words)
      void save()
    }
    if (merged !== null) {
      finish(merged, 'Somebody else changed this file. Both changes are in.')
      return
    }
    tell('Not saved: the same place was changed elsewhere', true)
    isAsking = true
    askWhich(parts, (text) => {
      isAsking = false
      finish(text, 'Settled and saved')
    })
  }
  const lookAtDisk = async (file: string): Promise<void> => {
    if (file !== session.file || isBusy || isAsking) return
    const there = await fetchJson<ReadAnswer>(withFile('read', file)).catch(() => null)
    if (there === null || file !== session.file || isBusy || isAsking || there.hash === session.hash) return
    takeIn(there.text, there.hash)
  }
  return {
    typed: () => {
      if (isClean()) {
        tell('Saved')
        return
      }
      tell('Not saved yet')
      clearTimeout(timer)
      timer = window.setTimeout(() => void save(), quiet)
    },
    now: save,
    heard: (news) => {
      if (news.kind === 'file') void lookAtDisk(news.file)
    },
  }
}

/** Each place where two people wrote: one of the two is picked, and nothing is lost without being seen. */
function askWhich(parts: readonly MergePart[], settled: (text: string) => void): void {
  const places = parts.filter((part) => part.kind === 'both')
  const picked: ('mine' | 'theirs')[] = places.map(() => 'mine')
  const body = places.map((place, index) => {
    const choice = (which: 'mine' | 'theirs', words: string) => {
      const radio = make('input', { type: 'radio', name: `place-${index}`, value: which })
      radio.checked = which === 'mine'
      radio.addEventListener('change', () => {
        picked[index] = which
      })
      const lines = place[which].join('\n')
      return make('div', {}, make('label', {}, radio, ` ${words}`), make('pre', {}, lines === '' ? '(nothing)' : lines))
    }
    return make('div', { class: 'two' }, choice('mine', 'As typed here'), choice('theirs', 'As changed elsewhere'))
  })
  let isDone = false
  const done = (): void => {
    if (isDone) return
    isDone = true
    settled(textOfParts(parts, (place) => picked[place] ?? 'mine'))
  }
  const dialog = openDialog(
    'Two people wrote in the same place',
    make(
      'p',
      {},
      'This file was changed somewhere else while you wrote. Pick what shall stand. Undo brings the other back.',
    ),
    ...body,
    button('Keep what is picked', () => dialog.close(), 'tool is-main'),
  )
  dialog.addEventListener('close', done)
}
