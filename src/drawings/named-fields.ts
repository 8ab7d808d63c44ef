import type { StepSheet } from '../wording/step-file-parts.ts'

type Data = StepSheet['entries'][number]['data']

export interface NamedFields {
  readonly name: string
  readonly fields: { readonly [key: string]: Data }
}

/** What stands under a key of a step by names: `lift: { drum: … }`. */
export function namedFields(step: StepSheet, key: string): readonly NamedFields[] {
  return step.entries
    .filter((entry) => entry.key === key)
    .flatMap(({ data }) =>
      isFields(data)
        ? Object.entries(data).flatMap(([name, fields]) => (isFields(fields) ? [{ name, fields }] : []))
        : [],
    )
}

function isFields(value: Data): value is NamedFields['fields'] {
  return typeof value === 'object' && !Array.isArray(value)
}
