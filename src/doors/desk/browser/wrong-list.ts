import type { CheckAnswer, ShownFinding } from '../wire.ts'
import { byId, make, withCode } from './elements.ts'
import { kindTag } from './finding-acts.ts'

/** The list of what is to be put right, errors first, and how many there are. */
export function showWrong(answer: CheckAnswer, goTo: (finding: ShownFinding) => void): void {
  const order = { error: 0, warning: 1, advice: 2 } as const
  const findings = [...answer.findings].sort((a, b) => order[a.severity] - order[b.severity])
  const count = findings.length === 0 ? '' : `(${findings.length})`
  byId('count').textContent = count
  byId('views-count').textContent = count
  const panel = byId('panel-wrong')
  const top = panel.scrollTop
  panel.replaceChildren(...(findings.length === 0 ? allWell(answer) : [listOf(findings, goTo)]))
  panel.scrollTop = top
}

function allWell({ proved, page }: CheckAnswer): readonly HTMLElement[] {
  if (page === 'none')
    return [make('p', { class: 'empty' }, 'Write a phase (## …) with a step (1. …) and it is looked at.')]
  const well = make('p', { class: 'well' }, '✓ Nothing to put right. Every way through the job was followed.')
  return proved.length === 0 ? [well] : [well, make('ul', {}, ...proved.map((says) => make('li', {}, says)))]
}

/** The same thing at several places is one entry, with each of its places. */
function listOf(findings: readonly ShownFinding[], goTo: (finding: ShownFinding) => void): HTMLElement {
  const same = new Map<string, ShownFinding[]>()
  for (const finding of findings) {
    const key = `${finding.name} ${finding.message}`
    same.set(key, [...(same.get(key) ?? []), finding])
  }
  return make('ul', { class: 'flaws' }, ...[...same.values()].map((places) => entryOf(places, goTo)))
}

function entryOf(places: readonly ShownFinding[], goTo: (finding: ShownFinding) => void): HTMLElement {
  const [first, ...others] = places
  if (first === undefined) return make('li')
  const line = make(
    'button',
    { type: 'button', class: `flaw is-${first.severity}` },
    make('span', { class: 'where' }, kindTag(first), ` ${whereOf(first)}`),
    make('span', { class: 'what' }, ...withCode(first.message)),
  )
  line.addEventListener('click', () => goTo(first))
  const more = others.map((finding) => {
    const press = make('button', { type: 'button', class: 'flaw-more' }, whereOf(finding))
    press.addEventListener('click', () => goTo(finding))
    return press
  })
  return make('li', {}, line, more.length === 0 ? null : make('p', { class: 'flaw-others' }, 'Also: ', ...more))
}

function whereOf({ file, line }: ShownFinding): string {
  return file ?? `line ${line ?? '?'}`
}
