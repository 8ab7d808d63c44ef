import type { Fault } from '../../findings/finding.ts'
import type { ResourceGroup } from '../../model/resources.ts'
import type { Check, CheckSubject } from '../check.ts'
import { unknownName } from '../unknown-name.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** Protective equipment adds up over phases and steps and needs no list of its own. */
const listedGroups: readonly ResourceGroup[] = ['tools', 'gear', 'parts', 'consumables']

/** A step takes something that nobody was told to fetch, and of which nothing is known: no size, no range, no rating. */
export const notListed: Check = {
  name: 'resources/not-listed',
  severity: 'error',
  title: 'Something is used that the document does not list.',
  rules: ['PR-03'],

  *run({ procedure: { resources }, written }: CheckSubject): Iterable<Fault> {
    const listed = listedGroups.flatMap((group) => resources[group].filter((resource) => resource.listed))
    const known = listed.map((resource) => resource.id)
    for (const group of listedGroups) {
      for (const { id, at, listed: isListed } of resources[group]) {
        if (isListed) continue
        const otherwise = `Add it at the top: ${group}: [${id}]`
        const block = writtenAt(written, at)?.block
        const place =
          placeOfWord(
            block,
            (block?.map.entries ?? []).map((entry) => entry.key),
            id,
          ) ?? at
        yield unknownName(place, `"${id}" is used, but stands in no list of this document.`, id, known, otherwise)
      }
    }
  },
}
