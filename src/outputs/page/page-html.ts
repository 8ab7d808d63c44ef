import { browserScripts } from '#generated/browser-scripts'
import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import { coverView } from './cover-view.ts'
import { makeJob } from './make-job.ts'
import { phaseView } from './phase-view.ts'

export interface PageChoices {
  /** A draft is not worked from: NOT FOR USE across the page, nothing to tick or sign. */
  readonly draft: boolean
}

/** The procedure as one HTML file that works with no network: to read, to work from, and to record the job. */
export function pageHtml(stepFile: StepFile, { draft }: PageChoices): string {
  const { number, revision, title, status, language } = stepFile.document
  const canWork = !draft && status !== 'draft' && status !== 'withdrawn'
  const view = {
    number,
    revision,
    title,
    canWork,
    banner: bannerFor(draft ? 'draft' : status),
    cover: coverView(stepFile),
    phases: stepFile.phases.map((phase) => phaseView(stepFile, phase)),
    finalCondition: stepFile.states
      .filter(({ implied }) => !implied)
      .map((state) => ({
        tick: `final:${state.id}`,
        state: stateInWords(state),
        value: state.end.map(inWords).join(' or '),
      })),
  }
  return htmlDocument({
    language,
    title: `${number} ${revision}: ${title}`,
    body: fillTemplate('page/page', view),
    style: styles('base', 'page'),
    script: canWork ? (browserScripts.page ?? null) : null,
    data: canWork ? makeJob(stepFile) : null,
  })
}

function bannerFor(status: StepFile['document']['status']) {
  switch (status) {
    case 'draft':
      return { head: 'NOT FOR USE', says: 'This is a draft. Nothing on it may be worked from or signed.' }
    case 'withdrawn':
      return { head: 'WITHDRAWN', says: 'This procedure is no longer valid. Do not work from it.' }
    case 'for-review':
      return { head: 'FOR REVIEW', says: 'Not issued yet. Work from it only if the reviewers asked you to try it.' }
    case 'issued':
      return null
  }
}
