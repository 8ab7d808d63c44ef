import { identifierFrom } from '../../text/identifier.ts'
import type { OpenText } from '../open-text.ts'
import * as names from './offer-names.ts'
import type { Offered } from './offer-value.ts'

const nothing: Offered = { offers: [], replaces: 0 }

/** What can be typed in running text: marks with the names they take, who does a step, and a block. */
export function offerInProse(open: OpenText, offset: number): Offered {
  const lineStart = Math.max(open.text.lastIndexOf('\n', offset - 1), open.text.lastIndexOf('\r', offset - 1)) + 1
  const before = open.text.slice(lineStart, offset)
  const value = /\[=\s*([^\s[\]]*)$/.exec(before)
  if (value !== null) {
    const closing = open.text[offset] === ']' ? '' : ']'
    const all = [...names.offerDefined(open, 'reading', 'reading'), ...names.offerDefined(open, 'torque', 'torque')]
    return { offers: all.map((offer) => ({ ...offer, insert: `${offer.label}${closing}` })), replaces: length(value) }
  }
  const link = /\]\(#([^\s()]*)$/.exec(before)
  if (link !== null) {
    const closing = open.text[offset] === ')' ? '' : ')'
    return {
      offers: names.offerSteps(open).map((offer) => ({ ...offer, insert: `${offer.label}${closing}` })),
      replaces: length(link),
    }
  }
  return newId(open, before, offset) ?? roleAtStart(open, before) ?? blockBelow(open, before, lineStart) ?? nothing
}

const length = (match: RegExpExecArray): number => match[1]?.length ?? 0

/** `{#` at the end of a heading or step: an id made from its words. */
function newId(open: OpenText, before: string, offset: number): Offered | null {
  const match = /^(?:#{2,3}\s+|\s*\d{1,9}[.)]\s+)(.*?)\s*\{#([^{}\s]*)$/.exec(before)
  if (match === null) return null
  const words = (match[1] ?? '').replace(/\*\*[^*]*:\*\*|[[\]*_`]/g, '')
  const taken = new Set(open.names.filter(({ sort, defines }) => sort === 'step' && defines).map(({ name }) => name))
  const short = identifierFrom(words).split('-').slice(0, 3).join('-')
  const closing = open.text[offset] === '}' ? '' : '}'
  const id = firstFree(short, taken)
  return {
    offers: [{ label: id, kind: 'step', detail: 'from the words', insert: `${id}${closing}` }],
    replaces: match[2]?.length ?? 0,
  }
}

function firstFree(id: string, taken: ReadonlySet<string>): string {
  for (let number = 1; ; number++) {
    const candidate = number === 1 ? id : `${id}-${number}`
    if (!taken.has(candidate)) return candidate
  }
}

/** `**` at the start of a step or bullet: who does it. */
function roleAtStart(open: OpenText, before: string): Offered | null {
  const match = /^\s*(?:\d{1,9}[.)]|[-*+])\s+\*\*([^*:]*)$/.exec(before)
  if (match === null) return null
  const offers = names.offerRoles(open).map((offer) => {
    const words = offer.label.replaceAll('-', ' ')
    const label = words.charAt(0).toUpperCase() + words.slice(1)
    return { ...offer, label, insert: `${label}:** ` }
  })
  return { offers, replaces: length(match) }
}

/** At the start of a line below a heading or step, or after the first marks of a fence. */
function blockBelow(open: OpenText, before: string, lineStart: number): Offered | null {
  const typed = /^\s*(`{0,3})$/.exec(before)
  if (typed === null) return null
  const above = open.text.slice(0, lineStart).trimEnd()
  const line = above.slice(Math.max(above.lastIndexOf('\n'), above.lastIndexOf('\r')) + 1)
  const step = /^(\s*)(\d{1,9}[.)])\s+\S/.exec(line)
  if (step === null && !/^#{1,3}\s/.test(line) && (typed[1] ?? '') === '') return null
  const wanted = step === null ? '' : ' '.repeat((step[1]?.length ?? 0) + (step[2]?.length ?? 0) + 1)
  const insert = `${wanted}\`\`\`yaml\n${wanted}¦\n${wanted}\`\`\``
  return {
    offers: [
      {
        label: '```yaml',
        kind: 'block',
        detail: step === null ? 'a block' : 'a block of this step',
        documentation: 'What the checker and the print must know: a limit, a hold, a state that changes.',
        insert,
      },
    ],
    replaces: before.length,
  }
}
