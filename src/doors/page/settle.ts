import { type Happening, noMove } from '../../record/entry.ts'
import type { JobItem } from '../../record/job.ts'
import { moveAgain, moveTo, outletOf } from '../../record/outlet.ts'
import { conditionHolds, whyNotBranch, whySpoiled } from '../../record/worked-out.ts'
import { askReason } from './ask-reason.ts'
import { say } from './elements.ts'
import { conditionOf, itemOf } from './paint-fields.ts'
import { goNext, notYet, put, write } from './respond.ts'
import type { Work } from './work.ts'

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

export function undecide(work: Work, item: JobItem | null, button: HTMLElement): void {
  if (item?.kind !== 'decide' || work.now().sealed.has(item.id)) return
  askReason(button, 'Why is the decision taken back?', ['Pressed by mistake', 'Looked again'], (because) =>
    put(work, { kind: 'undecide', step: item.step, because }),
  )
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
  const happening: Happening =
    action === 'go'
      ? { kind: 'go', step, move: moveTo(work.job, item, targets[0] ?? null) }
      : { kind: 'again', step, attempt: outlet.attempt + 1, move: moveAgain(work.job, item, targets) }
  if (await write(work, happening)) goNext(work)
}

export async function skip(work: Work, id: string): Promise<void> {
  const skipped = work.state().skipped.has(id)
  const condition = conditionOf(id, work)
  if (!skipped && condition?.holds) return say(`By your readings it applies: ${condition.when}.`)
  await write(work, { kind: skipped ? 'unskip' : 'skip', part: id })
}
