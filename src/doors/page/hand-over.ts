import type { Person } from '../../record/entry.ts'
import { crewOf } from '../../record/people.ts'
import { clearedByProving, standingProofs } from '../../record/standing.ts'
import { askReason } from './ask-reason.ts'
import { goTo, one, say } from './elements.ts'
import { openInWords, statesInWords } from './paint-hand-over.ts'
import { goNext, put, write } from './respond.ts'
import { personNamed } from './sign.ts'
import type { Work } from './work.ts'

/** Both have signed: the proofs that rest on the one who leaves end, and block until they are taken again. */
export async function handOver(work: Work, form: HTMLFormElement, field: (name: string) => string): Promise<void> {
  const role = field('role')
  const [fromName, toName] = [field('from'), field('to')]
  if (fromName === '' || toName === '') return say('Both write their names: who leaves, and who takes over.')
  if (field('told') === '' || field('seen') === '') return say('Both say first that it was told and seen.')
  const from: Person = personNamed(work, role, fromName)
  const to: Person = { role, name: toName, initials: field('initials') || personNamed(work, role, toName).initials }
  const proofs = standingProofs(work.job, work.state())
  const open = openInWords(work)
  const { standsAt, stop } = work.now()
  const kept = await write(
    work,
    {
      kind: 'handover',
      where: (stop?.item ?? standsAt?.item)?.id ?? '',
      to,
      states: statesInWords(work),
      open: open.filter(({ isLock }) => !isLock).map(({ says }) => says),
      locks: open.filter(({ isLock }) => isLock).map(({ says, by }) => ({ lock: says, of: by })),
      withdrawn: proofs.map(({ says, how }) => `${says} (${how})`),
      text: field('text'),
      move: { clears: clearedByProving(work.job, proofs), passesOver: [], opens: null },
    },
    `${to.name} has taken over.${proofs.length === 0 ? '' : ' The proofs have ended: take them again first.'}`,
    [from],
  )
  if (!kept) return
  form.reset()
  const details = form.closest('details')
  if (details !== null) details.open = false
  goNext(work)
}

/** After a pause, or when a proof is too old: the same proofs, taken again by the same people. */
export async function proveAgain(work: Work): Promise<void> {
  const { lapsed } = work.now()
  const proofs = lapsed.length > 0 ? lapsed : standingProofs(work.job, work.state())
  if (proofs.length === 0) return say('No proof stands that could be taken again.')
  const withdrawn = proofs.map(({ says, how }) => `${says} (${how})`)
  const move = { clears: clearedByProving(work.job, proofs), passesOver: [], opens: null }
  if (await write(work, { kind: 'prove-again', withdrawn, move }, `To be proved again: ${withdrawn.join('; ')}.`))
    goNext(work)
}

/** Work goes on with a proof that is too old only as a deviation: with a reason, by the people signed in. */
export function takeOn(work: Work, button: HTMLElement): void {
  const proof = work.now().lapsed[0]
  if (proof === undefined) return
  const text = `${proof.says} (${proof.how}) is too old, and not proved again.`
  askReason(button, `${text} This stands in the record as a deviation. Why?`, [], (because) =>
    put(
      work,
      { kind: 'deviation', step: proof.item.step, wait: `proof:${proof.state}`, text, because },
      crewOf(work.job, work.state()),
    ),
  )
}

export function openHandOver(): void {
  const card = one<HTMLDetailsElement>('#hand-over')
  if (card !== null) card.open = true
  goTo(card)
}
