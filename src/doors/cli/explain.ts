import { nearestName } from '../../text/nearest-name.ts'
import { pageAsText } from './page-as-text.ts'
import { painterFor } from './painter.ts'
import type { Program } from './program.ts'
import type { Surroundings } from './surroundings.ts'

/** `witnessmark explain`: the page of a kind of finding; without a name, the list of all kinds. */
export function explain(name: string | undefined, program: Program, surroundings: Surroundings): number {
  const { pages } = program
  const names = Object.keys(pages).sort()
  if (name === undefined) {
    const column = Math.max(0, ...names.map((each) => each.length)) + 2
    const lines = names.map((each) => `${each.padEnd(column)}${firstSentence(pages[each] ?? '')}`.trimEnd())
    surroundings.print(lines.map((line) => `${line}\n`).join(''))
    return 0
  }
  const meant = names.find((each) => each === name) ?? onlyOne(names.filter((each) => each.endsWith(`/${name}`)))
  const page = meant === null ? undefined : pages[meant]
  if (page !== undefined) {
    surroundings.print(pageAsText(page, painterFor(surroundings)))
    return 0
  }
  const near = nearestName(name, names) ?? nearestByLastPart(name, names)
  const advice = near === null ? 'Type “witnessmark explain” to see every name.' : `Did you mean ${near}?`
  surroundings.say(`There is no kind of finding named ${name}. ${advice}\n`)
  return 2
}

function nearestByLastPart(name: string, names: readonly string[]): string | null {
  const lastPart = (each: string) => each.slice(each.indexOf('/') + 1)
  const near = nearestName(name, names.map(lastPart))
  return names.find((each) => lastPart(each) === near) ?? null
}

/** The first sentence under the heading of a page. */
function firstSentence(page: string): string {
  const paragraph = page.replace(/^# .*\n+/, '').split(/\n\s*\n/)[0] ?? ''
  return /^.*?[.!?](?=\s|$)/s.exec(paragraph)?.[0].replace(/\s+/g, ' ') ?? ''
}

function onlyOne(names: readonly string[]): string | null {
  return names.length === 1 ? (names[0] ?? null) : null
}
