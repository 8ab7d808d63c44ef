import { browserScripts } from '#generated/browser-scripts'
import { htmlDocument } from '../../html/document.ts'
import { fillTemplate } from '../../html/fill-template.ts'
import { styles } from '../../html/styles.ts'
import type { Job } from '../../record/job.ts'
import { makeJob } from '../../record/make-job.ts'
import { packJob } from '../../record/packed-job.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { inWords, stateInWords } from '../../wording/state-text.ts'
import { statusBanner } from '../../wording/status-text.ts'
import { coverView } from './cover-view.ts'
import { phaseView } from './phase-view.ts'

/** Who may hand over: those who do steps. */
function crewOf(job: Job) {
  return job.roles.filter(({ acts }) => acts).map(({ id }) => ({ id, name: inWords(id) }))
}

export interface PageChoices {
  /** A draft is not worked from: NOT FOR USE across the page, nothing to tick or sign. */
  readonly draft: boolean
}

/** The procedure as one HTML file that works with no network: to read, to work from, and to record the job. */
export function pageHtml(stepFile: StepFile, { draft }: PageChoices): string {
  const { number, revision, title, status, language } = stepFile.document
  // On paper, too, only an issued document is signed.
  const canWork = !draft && status === 'issued'
  const job = canWork ? makeJob(stepFile) : null
  const view = {
    number,
    revision,
    title,
    canWork,
    banner: statusBanner(draft ? 'draft' : status),
    cover: coverView(stepFile),
    crew: job === null ? [] : crewOf(job),
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
    data: job === null ? null : packJob(job),
  })
}
