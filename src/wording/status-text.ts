import type { StepFile } from '../step-file/step-file.ts'

/** What stands across the head of a document that is not in force; null for one that is. */
export function statusBanner(status: StepFile['document']['status']) {
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
