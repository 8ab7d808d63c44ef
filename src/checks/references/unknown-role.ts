import type { Fault } from '../../findings/finding.ts'
import { roleId } from '../../model/passes/resolve-claims.ts'
import type { Phase, Step } from '../../model/procedure.ts'
import { valueAt } from '../../syntax/block-node.ts'
import type { WrittenProcedure } from '../../syntax/written.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { isInList } from '../role-as-written.ts'
import { choices, unknownName } from '../unknown-name.ts'
import { placeOfRole, placeOfValue, placeOfWord, writtenAt } from '../written-words.ts'

interface Mention {
  readonly role: string
  readonly at: Place
}

/** A step is given to a role, signed by one, or moves one, that the document does not know. */
export const unknownRole: Check = {
  name: 'references/unknown-role',
  severity: 'error',
  title: 'A role is named that the document does not list.',
  rules: ['SG-16', 'HP-01'],

  *run({ procedure, written, texts }: CheckSubject): Iterable<Fault> {
    const known = procedure.roles.map((role) => role.id)
    const reported = new Set<string>()
    const mentions = [
      // Only what this document typed: a role of the library names people of other jobs too.
      ...procedure.roles.flatMap((role) =>
        role.differentFrom
          .map((other) => ({ role: other, at: placeOfValue(written, role.at, other) }))
          .filter(({ at }) => at.start !== role.at.start || at.file !== role.at.file),
      ),
      ...procedure.states.flatMap((state) =>
        provingRoles(state.provedBy).map((role) => ({ role, at: placeOfValue(written, state.at, role) })),
      ),
      ...procedure.zones.flatMap((zone) =>
        zone.entry === null ? [] : [{ role: roleId(zone.entry), at: placeOfValue(written, zone.at, zone.entry) }],
      ),
      ...procedure.phases.flatMap((phase) => inPhase(phase, written)),
      ...everyWrittenStep(procedure).flatMap(({ step, phase }) => inStep(step, phase, written)),
    ]
    for (const { role, at } of mentions) {
      if (known.includes(role) || isDescribed(role, written, texts)) continue
      const place = `${role} ${at.file} ${at.start}`
      if (reported.has(place)) continue
      reported.add(place)
      const listed = known.length === 0 ? 'this document lists no roles' : `the roles are ${choices(known)}`
      const isList = procedure.roles.some((one) => isInList(one, texts))
      const otherwise = isList
        ? `List it at the top: roles: [${[...known, role].join(', ')}]`
        : `List it at the top: roles: { ${role}: { who: … } }`
      yield unknownName(at, `No role is called "${role}"; ${listed}.`, role, known, otherwise)
    }
  },
}

/** A role that stands under `roles` and was taken out because something in it does not fit: that is told there. */
function isDescribed(role: string, { block }: WrittenProcedure, texts: CheckSubject['texts']): boolean {
  const at = valueAt(block?.map, 'roles')?.at
  const typed = at && texts?.get(at.file)?.slice(at.start, at.end).replace(/#.*$/gm, '')
  return typed !== undefined && new RegExp(`(?:^|[{,])\\s*${role.replace(/[^\w-]/g, '.')}\\s*:`, 'm').test(typed)
}

/** `reading` and `test` prove without a signature. */
const provingRoles = (provedBy: readonly string[]): readonly string[] =>
  provedBy.filter((prover) => prover !== 'reading' && prover !== 'test')

function inPhase(phase: Phase, written: WrittenProcedure): readonly Mention[] {
  const block = writtenAt(written, phase.at)?.block
  const named = [...phase.by, ...phase.where.flatMap(({ role }) => role ?? [])]
  return named.map((role) => ({ role, at: placeOfWord(block, ['by', 'where'], role) ?? phase.at }))
}

function inStep(step: Step, phase: Phase, written: WrittenProcedure): readonly Mention[] {
  const part = writtenAt(written, step.at)
  const typedRole = (role: string) => placeOfRole(part, (name) => roleId(name) === role)
  const typedWord = (role: string) => placeOfWord(part?.block, ['by', 'where', 'enters'], role)
  const doers = [...step.by, ...step.acts.flatMap((act) => act.by)]
  // A role that comes from the phase is reported there.
  const own = doers.filter((role) => typedRole(role) || !phase.by.includes(role))
  const moved = [...step.where, ...step.enters].flatMap(({ role }) => role ?? [])
  return [
    ...own.map((role) => ({ role, at: typedRole(role) ?? typedWord(role) ?? step.at })),
    ...moved.flatMap((role) => ({ role, at: typedWord(role) })).flatMap(({ role, at }) => (at ? [{ role, at }] : [])),
    ...step.holds.map(({ role, at }) => ({ role, at })),
  ]
}
