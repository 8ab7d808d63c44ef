import { openThings, standingProofs, statesNow } from '../../record/standing.ts'
import { all, make, one } from './elements.ts'
import type { Work } from './work.ts'

/** How the equipment stands by the steps ticked, in words. */
export function statesInWords(work: Work): readonly (readonly [string, string])[] {
  const values = statesNow(work.job, work.state())
  return work.job.states
    .filter(({ implied }) => !implied)
    .map(({ id, words }) => [words, (values.get(id) ?? 'not known').replaceAll('-', ' ')] as const)
}

/** What stands open, with how many. */
export function openInWords(
  work: Work,
): readonly { readonly says: string; readonly isLock: boolean; readonly by: string }[] {
  return openThings(work.job, work.state()).map(({ says, count, isLock, by }) => ({
    says: count === null ? says : `${says} (${count})`,
    isLock,
    by,
  }))
}

/** Where the work stands still, in words. */
function whereNow(work: Work): string {
  const { standsAt, stop } = work.now()
  const item = stop?.item ?? standsAt?.item
  return item === undefined ? 'All steps are done.' : `Before ${item.number}: ${item.text}`
}

/** Shows what is handed over, as it is at this moment. */
export function paintHandOver(work: Work): void {
  const card = one('[data-handover-card]')
  if (card === null) return
  const { job } = work
  const state = work.state()
  const open = openInWords(work)
  const proofs = standingProofs(job, state)
  const lines: readonly (readonly [string, readonly string[]])[] = [
    ['Where it stands', [whereNow(work)]],
    ['The equipment, by the steps ticked', statesInWords(work).map(([name, value]) => `${name}: ${value}`)],
    ['Locks on, and whose', open.filter(({ isLock }) => isLock).map(({ says, by }) => `${says}, ${by}`)],
    ['Temporary, still to be undone', open.filter(({ isLock }) => !isLock).map(({ says }) => says)],
    [
      'Proofs that end now and are taken again before anyone goes on',
      proofs.map(({ says, how }) => `${says} (was: ${how})`),
    ],
  ]
  const shown = JSON.stringify(lines)
  paintHandOvers(work)
  if (card.dataset.shown === shown) return
  card.dataset.shown = shown
  one('[data-handover-says]', card)?.replaceChildren(
    ...lines.flatMap(([title, list]) => {
      const items = make('ul', '', '')
      items.append(...(list.length === 0 ? ['none'] : list).map((line) => make('li', '', line)))
      return [make('h3', '', title), items]
    }),
  )
}

function paintHandOvers(work: Work): void {
  for (const list of all('[data-handovers]')) {
    const { handovers } = work.state()
    if (list.childElementCount === handovers.length) continue
    list.replaceChildren(
      ...handovers.map(({ at, by, to, withdrawn }) => {
        const proofs = withdrawn.length === 0 ? '' : `. To be proved again: ${withdrawn.join('; ')}`
        return make('li', '', `${at.slice(0, 16).replace('T', ' ')}: ${by[0]?.name ?? ''} to ${to.name}${proofs}`)
      }),
    )
  }
}
