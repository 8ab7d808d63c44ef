import { meaningOf, type Person } from '../../record/entry.ts'
import type { SignItem } from '../../record/job.ts'
import { initialsOf, roleInWords, samePerson, whyNotSigner } from '../../record/people.ts'
import { askReason } from './ask-reason.ts'
import { goTo, one, say } from './elements.ts'
import { itemOf } from './paint-fields.ts'
import { notYet, put, write } from './respond.ts'
import type { Work } from './work.ts'

function signItem(work: Work, element: Element): SignItem | null {
  const item = itemOf(element, work)
  return item?.kind === 'sign' ? item : null
}

/** A name written in a form, as the person who is signed in under it, else as a person of that role. */
export function personNamed(work: Work, role: string, name: string, initials = ''): Person {
  const known = work.state().signedIn.findLast((person) => person.role === role && samePerson(person.name, name))
  return known === undefined || initials !== ''
    ? { role, name, initials: initials || initialsOf(name) }
    : { role, name: known.name, initials: known.initials }
}

export async function sign(work: Work, form: HTMLFormElement, name: string): Promise<void> {
  const item = signItem(work, form)
  if (item === null || notYet(work, item)) return
  const role = roleInWords(item.role)
  const refused =
    name === '' ? `Write the name of the ${role} first.` : whyNotSigner(work.job, work.state(), item, name)
  if (refused !== null) {
    say(refused)
    goTo(one('input', form))
    return
  }
  const by = [personNamed(work, item.role, name)]
  const keep = async (): Promise<void> => {
    const happening = { kind: 'sign', hold: item.hold, meaning: meaningOf[item.holdKind] } as const
    if (await write(work, happening, `${item.number} signed.`, by)) form.reset()
  }
  const expected = work.state().people.get(item.role)?.name ?? ''
  if (expected === '' || samePerson(expected, name)) return keep()
  const text = `${item.number}: the ${role} on this job is ${expected}, and ${name} signs.`
  const usual = [`Has taken over as ${role}`, `Is ${role}, too`]
  askReason(form.closest<HTMLElement>('.hold') ?? form, `${text} Why?`, usual, async (because) => {
    if (await write(work, { kind: 'deviation', step: item.step, wait: null, text, because }, '', by)) await keep()
  })
}

export async function waive(work: Work, button: HTMLElement): Promise<void> {
  const item = signItem(work, button)
  const form = button.closest('form')
  if (item === null || form === null || notYet(work, item)) return
  const name = String(new FormData(form).get('name') ?? '').trim()
  if (name === '') return say('Write the name of the person who waives it first.')
  const by = [personNamed(work, item.role, name)]
  if (await write(work, { kind: 'waive', hold: item.hold }, `${item.number} waived: it proves nothing.`, by))
    form.reset()
}

/** Whoever met the stop says that the work has stopped. */
export async function stop(work: Work, item: string, name: string): Promise<void> {
  if (name === '') return say('Write your name first.')
  const because = work.now().stop?.says ?? ''
  await put(work, { kind: 'stop', item, because }, [personOf(work, name)])
}

/** Someone by name alone: in the role that he or she signed in for, if any. */
export function personOf(work: Work, name: string): Person {
  const known = work.state().signedIn.findLast((person) => samePerson(person.name, name))
  return known === undefined
    ? { role: '', name, initials: initialsOf(name) }
    : { role: known.role, name: known.name, initials: known.initials }
}
