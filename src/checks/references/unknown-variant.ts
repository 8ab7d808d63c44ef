import type { Fault } from '../../findings/finding.ts'
import type { Only } from '../../model/variants.ts'
import type { Place } from '../../text/place.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyWrittenStep } from '../every-step.ts'
import { choices, unknownName } from '../unknown-name.ts'
import { placeOfWord, writtenAt } from '../written-words.ts'

/** Work that is only for a variant which the front matter does not offer would be done by nobody. */
export const unknownVariant: Check = {
  name: 'references/unknown-variant',
  severity: 'error',
  title: 'Something is only for a variant that the document does not have.',
  rules: ['BR-07'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { variants } = procedure.document
    const all = variants.flatMap((variant) => variant.values)
    const uses: { readonly only: Only | null; readonly at: Place; readonly part: Place }[] = [
      ...procedure.phases.map(({ only, at }) => ({ only, at, part: at })),
      ...everyWrittenStep(procedure).flatMap(({ step }) => [
        { only: step.only, at: step.at, part: step.at },
        ...[...step.torques, ...step.readings].map(({ only, at }) => ({ only, at, part: step.at })),
      ]),
    ]
    for (const { only, at, part } of uses) {
      if (only === null) continue
      const named = variants.find((variant) => variant.name === only.variant)
      const known = named?.values ?? all
      const block = writtenAt(written, part)?.block
      if (only.variant !== '' && named === undefined) {
        const names = variants.map((variant) => variant.name)
        const place =
          placeOfWord(block, ['only', 'torque', 'measure', 'check', 'set', 'derive', 'count'], only.variant) ?? at
        const otherwise = `List it in the front matter: variants: { ${only.variant}: [ … ] }`
        yield unknownName(place, `This document has no variant "${only.variant}".`, only.variant, names, otherwise)
        continue
      }
      for (const value of only.values) {
        if (known.includes(value)) continue
        const place = placeOfWord(block, ['only', 'torque', 'measure', 'check', 'set', 'derive', 'count'], value) ?? at
        const offered = known.length === 0 ? 'the front matter lists none' : `there are ${choices(known)}`
        const otherwise = 'List it in the front matter: variants: { name: [one, other] }'
        yield unknownName(place, `"${value}" is no variant of this document; ${offered}.`, value, known, otherwise)
      }
    }
  },
}
