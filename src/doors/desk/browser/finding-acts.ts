import type { ShownFinding } from '../wire.ts'
import { button, make, withCode } from './elements.ts'

export interface FindingHooks {
  readonly mend: (finding: ShownFinding) => void
  readonly explain: (name: string) => void
  readonly tellStory: (finding: ShownFinding) => void
  readonly goTo: (finding: ShownFinding) => void
}

export const kindWords = { error: 'Error', warning: 'Warning', advice: 'Advice' } as const

export function kindTag(finding: ShownFinding): HTMLElement {
  return make('span', { class: `kind is-${finding.severity}` }, kindWords[finding.severity])
}

/** What to do about a finding, and the buttons that do it. */
export function findingBody(finding: ShownFinding, hooks: FindingHooks): readonly HTMLElement[] {
  const acts = make('div', { class: 'note-acts' })
  if (finding.edit !== null) {
    const title = finding.edit.afterLooking ? `${finding.edit.title} (then look it over)` : finding.edit.title
    acts.append(button(title, () => hooks.mend(finding), 'act is-main'))
  }
  if (finding.story.length > 0) acts.append(button('Show how', () => hooks.tellStory(finding)))
  acts.append(button('Why?', () => hooks.explain(finding.name)))
  const elsewhere = finding.file === null ? [] : [make('p', {}, `In the file ${finding.file}.`)]
  const related = finding.related.map((place) =>
    make('p', { class: 'small' }, `Line ${place.line ?? '?'}: ${place.message}`),
  )
  return [...elsewhere, make('p', {}, ...withCode(finding.advice)), ...related, acts]
}
