import type { JobItem, SignItem } from '../../outputs/page/job.ts'
import { goTo, one, say } from './elements.ts'
import { type JobHappening, noMove } from './job-log.ts'
import { moveAgain, moveTo, outletOf } from './outlet.ts'
import { conditionOf, itemOf } from './paint-fields.ts'
import { whyNotSigner } from './people.ts'
import { goNext, notYet, put, write } from './respond.ts'
import type { Work } from './work.ts'
import { conditionHolds, whyNotBranch, whySpoiled } from './worked-out.ts'

export async function decide(work: Work, item: JobItem | null, index: number): Promise<void> {
  const branch = item?.kind === 'decide' ? item.branches[index] : undefined
  if (item?.kind !== 'decide' || branch === undefined) return
  if (notYet(work, item)) return
  if (work.state().decisions.has(item.step)) return say('Already decided. Take the decision back first.')
  const against = whyNotBranch(work.job, work.state(), item, index)
  if (against !== '') return say(against)
  const move = branch.action === 'go' ? moveTo(work.job, item, branch.target) : noMove
  await write(work, { kind: 'decide', step: item.step, branch: index, says: branch.says, move })
}

export async function undecide(work: Work, item: JobItem | null): Promise<void> {
  if (item?.kind === 'decide' && !work.now().sealed.has(item.id)) await put(work, { kind: 'undecide', step: item.step })
}

export async function endPhase(work: Work, button: HTMLElement, met: boolean): Promise<void> {
  const item = itemOf(button, work)
  if (item?.kind !== 'until' || notYet(work, item) || work.state().ended.has(item.phase)) return
  const attempt = (work.state().attempts.get(item.phase) ?? 1) + 1
  if (met && conditionHolds(work.job, work.state(), item, item.condition) === false)
    return say(`By your readings it is not so: ${item.condition}.`)
  const spoiled = met ? whySpoiled(work.job, work.state(), item, item.condition) : ''
  if (spoiled !== '') return say(spoiled)
  if (met) return put(work, { kind: 'until', phase: item.phase, met, attempt: attempt - 1, move: noMove })
  const another = item.atMost === null || attempt <= item.atMost
  const move = another ? moveAgain(work.job, item, [item.phase]) : noMove
  await write(work, { kind: 'until', phase: item.phase, met, attempt, move })
}

export async function settle(work: Work, id: string): Promise<void> {
  const item = work.job.items.find((candidate) => candidate.id === id)
  if (item?.kind !== 'step' && item?.kind !== 'until') return
  const outlet = outletOf(item, work.state())
  if (!outlet?.consequence) return
  const { action, targets } = outlet.consequence
  const step = item.kind === 'step' ? item.step : item.phase
  const happening: JobHappening =
    action === 'go'
      ? { kind: 'go', step, move: moveTo(work.job, item, targets[0] ?? null) }
      : { kind: 'again', step, attempt: outlet.attempt + 1, move: moveAgain(work.job, item, targets) }
  if (await write(work, happening)) goNext(work)
}

export async function skip(work: Work, id: string): Promise<void> {
  const skipped = work.state().skipped.has(id)
  const condition = conditionOf(id, work)
  if (!skipped && condition?.holds) return say(`By your readings it applies: ${condition.when}.`)
  await write(work, { kind: skipped ? 'unskip' : 'skip', id })
}

export async function submit(work: Work, form: HTMLFormElement, fields: FormData): Promise<void> {
  const field = (name: string): string => String(fields.get(name) ?? '').trim()
  const { dataset } = form
  if (form.matches('.sign')) return sign(work, form, field('name'))
  if (dataset.stop !== undefined) {
    if (field('name') === '') return say('Write your name first.')
    const because = work.now().stop?.says ?? ''
    return put(work, { kind: 'stop', item: dataset.stop, because, name: field('name') })
  }
  if (dataset.handover !== undefined) {
    if (field('from') === '' || field('to') === '') return say('Write both names first.')
    const handover = { phase: dataset.handover, from: field('from'), to: field('to') }
    if (await write(work, { kind: 'handover', ...handover }, 'Written down. Change the names under “This job” too.'))
      form.reset()
    return
  }
  if (dataset.deviation === undefined) return
  if (field('text') === '' || field('name') === '') return say('Write what went differently, and your name.')
  if (await write(work, { kind: 'deviation', text: field('text'), name: field('name') }, 'Written down.')) form.reset()
}

function signItem(work: Work, element: Element): SignItem | null {
  const item = itemOf(element, work)
  return item?.kind === 'sign' ? item : null
}

async function sign(work: Work, form: HTMLFormElement, name: string): Promise<void> {
  const item = signItem(work, form)
  if (item === null || notYet(work, item)) return
  const refused =
    name === '' ? `Write the name of the ${item.role} first.` : whyNotSigner(work.job, work.state(), item, name)
  if (refused !== null) {
    say(refused)
    goTo(one('input', form))
    return
  }
  if (await write(work, { kind: 'sign', hold: item.hold, role: item.role, name }, `${item.number} signed.`))
    form.reset()
}

export async function waive(work: Work, button: HTMLElement): Promise<void> {
  const item = signItem(work, button)
  const form = button.closest('form')
  if (item === null || form === null || notYet(work, item)) return
  const name = String(new FormData(form).get('name') ?? '').trim()
  if (name === '') return say('Write the name of the person who waives it first.')
  await write(work, { kind: 'waive', hold: item.hold, name }, `${item.number} waived: it proves nothing.`)
}
