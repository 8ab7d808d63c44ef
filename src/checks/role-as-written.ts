import type { Role } from '../model/procedure.ts'
import type { CheckSubject } from './check.ts'

/**
 * A role with more said of it, as it is typed: `supervisor: { who: shift supervisor, different-from: [fitter] }`.
 * It stands there whole, because a role that is described here no longer takes this entry from the library. Where the
 * document lists its roles, the list is shown as the map that it becomes.
 */
export function roleWith(
  role: Role,
  more: Partial<Pick<Role, 'differentFrom' | 'qualifications'>>,
  { procedure: { roles }, texts }: CheckSubject,
): string {
  const others = role.differentFrom.filter((id) => roles.some((known) => known.id === id))
  const lists = [
    ...(more.qualifications ? [`qualification: [${[...role.qualifications, ...more.qualifications].join(', ')}]`] : []),
    ...(more.differentFrom ? [`different-from: [${[...others, ...more.differentFrom].join(', ')}]`] : []),
  ]
  const who = /[,:#[\]{}"']/.test(role.who) ? `"${role.who.replaceAll('"', "'")}"` : role.who
  const whole = `${role.id}: { who: ${who}, ${lists.join(', ')} }`
  if (!isInList(role, texts)) return whole
  const map = roles.map(({ id }) => (id === role.id ? whole : `${id}: {}`))
  return `roles: { ${map.join(', ')} }`
}

/** Whether a role is only named, as in `roles: [fitter, supervisor]`; false where the text is not at hand. */
export function isInList({ at }: Role, texts: CheckSubject['texts']): boolean {
  const behind = texts?.get(at.file)?.slice(at.end)
  return behind !== undefined && !/^["']?\s*:/.test(behind)
}
