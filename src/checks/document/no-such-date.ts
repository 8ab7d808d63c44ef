import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { placeInFrontMatter } from '../front-matter-place.ts'
import { placeOfWord } from '../written-words.ts'

/** 2026-02-30 is written like a date and never was on a calendar. */
export const noSuchDate: Check = {
  name: 'document/no-such-date',
  severity: 'error',
  title: 'A date of the document is no day of the calendar.',
  rules: ['PL-01'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    const { date, reviewBy, approvals } = procedure.document
    const dates = [
      { key: 'date', says: date },
      { key: 'review-by', says: reviewBy },
      ...approvals.map((approval) => ({ key: 'approvals', says: approval.date })),
    ]
    for (const { key, says } of dates) {
      if (says === null || !looksLikeDay.test(says) || isDay(says)) continue
      yield {
        at: placeOfWord(written.frontMatter, [key], says) ?? placeInFrontMatter(written, key),
        message: `"${says}" is not a day of the calendar.`,
        advice: 'Write the day it was meant to be, as year-month-day: 2026-03-02.',
      }
    }
  },
}

/** What is not written like this at all is the matter of the front matter's schema. */
const looksLikeDay = /^\d{4}-\d{2}-\d{2}$/

const daysOf = [31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31]

/** ISO 8601-1:2019, calendar date in extended format; leap years of the Gregorian calendar. */
function isDay(text: string): boolean {
  const [year, month, day] = text.split('-').map(Number)
  if (year === undefined || month === undefined || day === undefined) return false
  const isLeap = (year % 4 === 0 && year % 100 !== 0) || year % 400 === 0
  const last = month === 2 && isLeap ? 29 : daysOf[month - 1]
  return last !== undefined && day >= 1 && day <= last
}
