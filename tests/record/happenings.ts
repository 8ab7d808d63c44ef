import { entryAfter } from '../../src/record/chain.ts'
import type { Entry, Happening, Person, Verdict } from '../../src/record/entry.ts'
import { itemContents } from '../../src/record/item-contents.ts'
import type { Job } from '../../src/record/job.ts'
import type { JobState } from '../../src/record/job-state.ts'
import { jobState } from '../../src/record/reckon.ts'

/** What happens in a test, with who did it and when where that counts. */
export type Done = Happening & { readonly by?: readonly Person[]; readonly on?: string }

export const evening = '2026-03-02T22:00:00+10:00'

export const person = (role: string, name: string): Person => ({ role, name, initials: name.replace(/[^A-Z]/g, '') })
export const signsIn = (role: string, name: string): Done => ({ kind: 'person', person: person(role, name) })

export const reads = (reading: string, typed: string, verdict: Verdict, position: string | null = null): Done => ({
  kind: 'reading',
  reading,
  position,
  typed,
  verdict,
  judgedAs: '',
  limit: '',
  correction: null,
})

/** The entries of a run, each bound to those before it. */
export function entriesOf(job: Job, done: readonly Done[], run = 'run-1'): readonly Entry[] {
  const binding = { run, procedure: job.digest }
  const entries: Entry[] = []
  for (const { by = [], on = evening, ...happening } of [{ kind: 'begin', run } as Done, ...done])
    entries.push(entryAfter(binding, entries, on, by, happening as Happening))
  return entries
}

export function stateOf(job: Job, done: readonly Done[]): JobState {
  return jobState(entriesOf(job, done), itemContents(job))
}

export const instant = (at: string = evening): number => Date.parse(at)
