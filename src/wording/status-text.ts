import type { StepFile } from '../step-file/step-file.ts'

/** What stands across the head of a document that is not in force; null for one that is. */
export function statusBanner(status: StepFile['document']['status']) {
  switch (status) {
    case 'draft':
      return { head: 'NOT FOR USE', says: 'This is a draft. Nothing on it may be worked from or signed.' }
    case 'withdrawn':
      return { head: 'WITHDRAWN', says: 'This procedure is no longer valid. Do not work from it.' }
    case 'for-review':
      return {
        head: 'NOT FOR USE',
        says: 'For review, not issued yet. Read it and tell the author; nothing on it may be worked from or signed.',
      }
    case 'issued':
      return null
  }
}

const STATUS_WORDS: Readonly<Record<StepFile['document']['status'], string>> = {
  draft: 'draft, not for use',
  'for-review': 'for review',
  issued: 'issued',
  withdrawn: 'withdrawn',
}

/** The status in a list of documents. */
export function statusWord(status: StepFile['document']['status']): string {
  return STATUS_WORDS[status]
}
