import type { BlockPlace } from '../../../syntax/fit-block-schema.ts'
import { completions } from '../../../writing/completions.ts'
import type { FormTarget, FormValue } from '../../../writing/forms/form.ts'
import { formMenu } from '../../../writing/forms/form-menu.ts'
import { openForm, targetAt } from '../../../writing/forms/open-form.ts'
import { removeForm, writeForm } from '../../../writing/forms/write-form.ts'
import type { OpenText } from '../../../writing/open-text.ts'
import { type Desk, type Fields, text } from './desk.ts'

/** More than this nobody reads. */
const mostOffered = 60

type Post = (desk: Desk, fields: Fields) => unknown

/** Forms: what can be put in, the form of one thing, and the changes that write it. Nothing is written to a file here. */
export const formPosts: Readonly<Record<string, Post>> = {
  suggest: withText((open, fields) => ({ suggestions: completions(open, offsetOf(fields)).slice(0, mostOffered) })),
  'form-menu': withText((open, fields) => formMenu(open, offsetOf(fields))),
  'form-at': withText((open, fields) => {
    const target = targetAt(open, offsetOf(fields))
    return { form: target && openForm(open, target) }
  }),
  'form-open': withText((open, fields) => ({ form: openForm(open, targetOf(fields)) })),
  'form-write': withText((open, fields) => {
    const value = formValue(fields.value, 0)
    if (value === null) return null
    return writeForm(open, targetOf(fields), typeof fields.named === 'string' ? fields.named : null, value)
  }),
  'form-remove': withText((open, fields) => removeForm(open, targetOf(fields))),
}

function withText(answer: (open: OpenText, fields: Fields) => unknown): Post {
  return ({ shelf, workplace }, fields) => {
    const file = text(fields, 'file')
    return shelf.files().includes(file) ? answer(workplace.read(file, text(fields, 'text')), fields) : null
  }
}

function offsetOf({ offset }: Fields): number {
  return typeof offset === 'number' && Number.isInteger(offset) && offset >= 0 ? offset : 0
}

function targetOf(fields: Fields): FormTarget {
  const name = typeof fields.name === 'string' ? fields.name : null
  return { place: text(fields, 'place') as BlockPlace, offset: offsetOf(fields), key: text(fields, 'key'), name }
}

/** A form nests no deeper than the language does. */
const deepest = 20

/** What came over the wire as a value of a form; null where it is none. */
function formValue(value: unknown, depth: number): FormValue | null {
  if (typeof value === 'string') return value
  if (typeof value !== 'object' || value === null || depth > deepest) return null
  if (Array.isArray(value)) {
    const items = value.map((item) => formValue(item, depth + 1))
    return items.some((item) => item === null) ? null : (items as readonly FormValue[])
  }
  const entries = Object.entries(value).map(([name, inner]) => [name, formValue(inner, depth + 1)] as const)
  return entries.some(([, inner]) => inner === null) ? null : (Object.fromEntries(entries) as FormValue)
}
