import type { CheckAnswer, ShownFinding } from '../wire.ts'
import { byId, make } from './elements.ts'
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

function listOf(findings: readonly ShownFinding[], goTo: (finding: ShownFinding) => void): HTMLElement {
  return make(
    'ul',
    { class: 'flaws' },
    ...findings.map((finding) => {
      const where = finding.file === null ? `line ${finding.line ?? '?'}` : finding.file
      const line = make(
        'button',
        { type: 'button', class: `flaw is-${finding.severity}` },
        make('span', { class: 'where' }, kindTag(finding), ` ${where}`),
        make('span', { class: 'what' }, finding.message),
      )
      line.addEventListener('click', () => goTo(finding))
      return make('li', {}, line)
    }),
  )
}
