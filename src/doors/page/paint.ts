import { type Meaning, meaningOf } from '../../record/entry.ts'
import type { JobItem } from '../../record/job.ts'
import type { Signature } from '../../record/job-state.ts'
import { roleInWords } from '../../record/people.ts'
import { openBefore, type Standing, type Survey } from '../../record/survey.ts'
import { branchByReadings, conditionHolds } from '../../record/worked-out.ts'
import { all, byData, make, one, setText, showIn } from './elements.ts'
import { paintFields } from './paint-fields.ts'
import { openInWords, paintHandOver } from './paint-hand-over.ts'
import { paintOutlet } from './paint-outlet.ts'
import { paintRemarks } from './paint-remarks.ts'
import { paintRunning, paintTimers } from './paint-timers.ts'
import type { Work } from './work.ts'

/** Makes the whole page show where the job stands. */
export function paint(work: Work): void {
  const now = work.now()
  for (const standing of now.inOrder) paintItem(work, standing, now)
  for (const phase of work.job.phases) paintPhase(phase.id, now)
  paintFields(work)
  paintNext(work, now)
  paintLists(work)
  paintClock(work)
  paintHandOver(work)
  void paintRemarks(work)
  document.documentElement.classList.toggle('is-closed', now.isClosed)
}

/** What changes with the clock alone. */
export function paintClock(work: Work): void {
  paintTimers(work)
  const open = openInWords(work).map(({ says, by }) => (by === '' ? says : `${says}, ${by}`))
  const old = work.now().lapsed.map(({ says, how }) => `Proof too old: ${says} (${how})`)
  paintRunning(work, [...old, ...open])
  for (const answer of all('[data-prove-again], [data-take-on]')) answer.hidden = old.length === 0
}

export function elementOf(item: JobItem): HTMLElement | null {
  return byData('item', item.id)
}

function paintItem(work: Work, standing: Standing, now: Survey): void {
  const { item, status } = standing
  const element = elementOf(item)
  if (element === null) return
  for (const name of ['done', 'blocked', 'off'] as const) element.classList.toggle(`is-${name}`, status === name)
  element.classList.toggle('is-next', now.next?.item.id === item.id)
  if (item.kind === 'step')
    showIn(ownPart(element, '.step-main'), 'off-word', status === 'off' ? `${standing.why}.` : '')
  if (item.kind === 'step') paintOutlet(work, standing, ownPart(element, '.done'))
  if (item.kind === 'sign') paintSign(work, standing, element, now)
  if (item.kind === 'decide') paintDecide(work, standing, element, now)
  if (item.kind === 'until') paintUntil(work, standing, element)
}

/** A part of a step that is not one of a sub-step's. */
function ownPart(element: HTMLElement, selector: string): HTMLElement | null {
  return all(selector, element).find((part) => part.closest('[data-item]') === element) ?? null
}

function paintSign(work: Work, { item, status }: Standing, element: HTMLElement, now: Survey): void {
  if (item.kind !== 'sign') return
  const signature = work.state().signatures.get(item.hold)
  const form = one('.sign', element)
  const says = signature === undefined ? '' : signatureSays(signature, meaningOf[item.holdKind])
  if (form) form.hidden = signature !== undefined
  showIn(one('.hold-body', element), 'signed', says)
  const open = status === 'done' || status === 'off' ? [] : openBefore(now, item)
  form?.querySelector('.sign-button')?.setAttribute('aria-disabled', String(open.length > 0))
  element.classList.toggle('is-blocked', open.length > 0)
  showIn(form, 'waits', open.length === 0 ? '' : `First: ${numbers(open)}`)
  const mirror = byData('mirror', item.id)
  mirror?.classList.toggle('is-done', signature !== undefined)
  showIn(mirror, 'signed', says)
}

/** Name, time and meaning, wherever a signature is shown (21 CFR 11.50). */
function signatureSays({ name, initials, at, waived }: Signature, meaning: Meaning): string {
  if (waived) return `Waived by ${name} (${initials}), ${shortTime(at)}`
  return `Signed: ${name} (${initials}), ${shortTime(at)}, as ${meaning}`
}

export function numbers(standings: readonly Standing[]): string {
  const named = [...new Set(standings.map(({ item }) => item.number))]
  return named.length > 6 ? `${named.slice(0, 5).join(', ')} and ${named.length - 5} more` : named.join(', ')
}

/** `2026-03-02 22:41`, as it was at the place. */
function shortTime(at: string): string {
  return at.slice(0, 16).replace('T', ' ')
}

function paintDecide(work: Work, { item, status }: Standing, element: HTMLElement, now: Survey): void {
  if (item.kind !== 'decide') return
  const decision = work.state().decisions.get(item.step)
  for (const button of all('[data-branch]', element)) {
    const taken = decision !== undefined && Number(button.dataset.branch) === decision.branch
    button.parentElement?.classList.toggle('is-not-taken', decision !== undefined && !taken)
    button.setAttribute('aria-pressed', String(taken))
    button.setAttribute('aria-disabled', String(status !== 'open' || openBefore(now, item).length > 0))
  }
  const fitting = status === 'open' ? branchByReadings(work.job, work.state(), item) : null
  const says = fitting === null ? '' : (item.branches[fitting]?.says ?? '')
  showIn(element, 'found', says === '' ? '' : `By your readings: ${says}`, one('.branches', element))
  const undo = one('[data-undecide]', element)
  if (undo) undo.hidden = decision === undefined || now.sealed.has(item.id)
}

function paintUntil(work: Work, standing: Standing, element: HTMLElement): void {
  const { item, status } = standing
  if (item.kind !== 'until') return
  const attempt = work.state().attempts.get(item.phase) ?? 1
  const of = item.atMost === null ? '' : ` of ${item.atMost}`
  const holds = conditionHolds(work.job, work.state(), item, item.condition)
  const found = holds === null ? '' : ` By your readings: ${holds ? 'yes' : 'no'}.`
  const answers = one('.answers', element)
  showIn(element, 'found', status === 'done' ? 'Yes. Go on.' : `Try ${attempt}${of}.${found}`, answers)
  for (const button of all('[data-until]', element)) {
    button.setAttribute('aria-disabled', String(status !== 'open'))
    button.setAttribute('aria-pressed', String(status === 'done' && button.dataset.until === 'yes'))
  }
  paintOutlet(work, standing, answers)
}

function paintPhase(id: string, now: Survey): void {
  const items = now.inOrder.filter(({ item }) => item.phase === id)
  const off = items.length > 0 && items.every(({ status }) => status === 'off')
  const done = !off && items.length > 0 && items.every(({ status }) => status === 'done' || status === 'off')
  const section = byData('phase', id)
  section?.classList.toggle('is-off', off)
  showIn(one('.phase-head', section ?? document), 'off-word', off ? `${items[0]?.why ?? ''}.` : '')
  const line = byData('plan', id)
  line?.classList.toggle('is-off', off)
  line?.classList.toggle('is-done', done)
  line?.classList.toggle('is-here', now.next?.item.phase === id)
}

function paintNext(work: Work, now: Survey): void {
  const progress = one<HTMLProgressElement & HTMLElement>('[data-progress]')
  if (progress) {
    progress.max = Math.max(1, now.total)
    progress.value = now.done
  }
  setText(one('[data-progress-text]'), `${now.done} of ${now.total}`)
  const { word, number, text, look, phase } = nextLine(now)
  setText(one('[data-next-word]'), word)
  setText(one('[data-next-number]'), number)
  setText(one('[data-next-text]'), text)
  const button = one('[data-next]')
  button?.classList.toggle('is-hold', look === 'hold')
  button?.classList.toggle('is-stop', look === 'stop')
  const here = work.job.phases.find(({ id }) => id === phase)
  setText(one('[data-where]'), here ? `${here.number} ${here.title}` : '')
}

function nextLine(now: Survey) {
  const plain = { word: 'Next', number: '', look: '', phase: '' }
  if (now.stop) {
    const { item, says } = now.stop
    return { word: '', number: item.number, text: says, look: 'stop', phase: item.phase }
  }
  const missing = now.missingAtStart[0]
  if (missing) {
    const field = missing.field === 'person' ? `name of the ${roleInWords(missing.name)}` : missing.name
    return { ...plain, word: 'First', text: `Fill in: ${field}` }
  }
  if (now.isClosed) return { ...plain, word: 'Closed', text: 'Save the record.' }
  const old = now.lapsed[0]
  if (old !== undefined)
    return { ...plain, word: 'First', text: `Too old: ${old.says} (${old.how}). Prove it again.`, look: 'stop' }
  if (now.next === null) return { ...plain, text: nothingNext(now) }
  const { item, outlet } = now.next
  if (outlet?.consequence && outlet.consequence.action !== 'continue')
    return {
      word: '',
      number: item.number,
      text: `Out of limit. ${outlet.consequence.says}`,
      look: 'stop',
      phase: item.phase,
    }
  const look = item.kind === 'sign' ? 'hold' : ''
  const word = item.kind === 'sign' ? item.holdKind.toUpperCase() : item.kind === 'decide' ? 'Decide' : 'Next'
  return { word, number: item.number, text: item.text, look, phase: item.phase }
}

function nothingNext({ standsAt }: Survey): string {
  if (standsAt === null) return 'All done. Close the job and save the record.'
  return `${standsAt.item.number}: ${standsAt.why}`
}

function paintLists(work: Work): void {
  const state = work.state()
  fillList(
    one('[data-deviations]'),
    state.deviations.map(
      ({ at, by, text, because }) => `${shortTime(at)} ${namesOf(by)}: ${text}${because === '' ? '' : ` (${because})`}`,
    ),
  )
  const now = work.now()
  const open = now.total - now.done
  const { end } = state
  const whole = end
    ? `Closed as ${end.how} by ${namesOf(end.by)}, ${shortTime(end.at)}.`
    : now.stop
      ? 'The work has stopped.'
      : open === 0
        ? 'Everything is done and signed.'
        : `${open} still open.`
  setText(
    one('[data-record-state]'),
    `${whole}${work.store.lasting ? '' : ' This browser keeps nothing: save before you close.'}`,
  )
  const list = one('[data-earlier]')
  const runs = [...work.earlier()].map(([run, entries]) => ({ run, begun: entries[0]?.at ?? '' }))
  if (list === null || list.childElementCount === runs.length) return
  list.replaceChildren(
    ...runs.map(({ run, begun }) => {
      const line = document.createElement('li')
      const button = make('button', 'plain', `Save the record begun ${shortTime(begun)}`)
      button.setAttribute('type', 'button')
      button.dataset.exportRun = run
      line.append(button)
      return line
    }),
  )
}

function namesOf(by: readonly { readonly name: string }[]): string {
  return by.map(({ name }) => name).join(', ')
}

function fillList(list: HTMLElement | null, lines: readonly string[]): void {
  if (list === null || list.childElementCount === lines.length) return
  list.replaceChildren(...lines.map((line) => make('li', '', line)))
}
