import type { Fault } from '../../findings/finding.ts'
import type { Step } from '../../model/procedure.ts'
import type { Resource, ResourceGroup } from '../../model/resources.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyStep } from '../every-step.ts'

/** Protective equipment of the document is worn throughout: listing it is using it. */
const groups: readonly ResourceGroup[] = ['tools', 'gear', 'parts', 'consumables']

/** Listed, fetched, carried to the machine, and no step asks for it: either the list or a step is wrong. */
export const neverUsed: Check = {
  name: 'resources/never-used',
  severity: 'advice',
  title: 'Something is listed that no step uses.',
  rules: ['PR-03'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    const said = everyStep(procedure)
      .map(({ step }) => wordsOfStep(step))
      .join('\n')
    for (const group of groups) {
      for (const resource of procedure.resources[group]) {
        if (!resource.listed || resource.usedIn.length > 0 || isNamedIn(said, resource)) continue
        yield {
          at: resource.at,
          message: `"${resource.id}" is listed under ${group}, but no step uses it.`,
          advice: `Say where it is used (uses: [${resource.id}]), or take it off the list.`,
        }
      }
    }
  },
}

const wordsOfStep = oncePer((step: Step): string =>
  [step.text.plain, ...step.acts.map((act) => act.text.plain), JSON.stringify([step.details, step.entries])]
    .join('\n')
    .toLowerCase(),
)

/** A step may name it in plain words: `bearing cone` for `bearing-cone`. */
function isNamedIn(said: string, { id, name }: Resource): boolean {
  const names = [id, id.replaceAll('-', ' '), name].map((word) => word.toLowerCase())
  return names.some((word) => word !== '' && said.includes(word))
}
