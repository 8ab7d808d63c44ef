import { describe, expect, it } from 'vitest'
import { parse } from 'yaml'
import { catalogue } from '../../src/catalogue.ts'
import { type Compiled, compileProcedure, openLibrary } from '../../src/compile.ts'
import type { Finding } from '../../src/findings/finding.ts'
import { filesMatching, textOf } from '../house/source-files.ts'
import { mapLibrary } from '../map-library.ts'

/** One thing that is wrong in a procedure; see the top of `expected.yaml`. */
interface Defect {
  readonly defect: string
  readonly group: 'readings' | 'flow'
  readonly says: string
  /** Names of kinds; any of them will do. */
  readonly expect?: string | readonly string[]
  readonly at?: string
  readonly step?: string
  readonly missed?: string
  readonly 'not-mechanisable'?: string
  readonly 'no-kind'?: string
}

interface Also {
  readonly finding: string
  /** Text that is underlined, one or several; without it, any place of the procedure. */
  readonly at?: string | readonly string[]
  readonly step?: string | readonly string[]
  readonly because: string
}

interface Expected {
  readonly procedure: string
  readonly defects: readonly Defect[]
  readonly quiet?: readonly { readonly kind: string; readonly at: string; readonly because: string }[]
  readonly also?: readonly Also[]
  /** Findings that are wrong and known to be wrong: the compiler's fault, not the text's. */
  readonly wrong?: readonly Also[]
}

type Verdict = 'found' | 'missed' | 'check to come' | 'no kind yet' | 'not mechanisable'

const registered = new Set(catalogue.map(({ name }) => name))
const { everywhere, procedures } = parse(textOf('tests/corpus/expected.yaml')) as {
  readonly everywhere: readonly Also[]
  readonly procedures: readonly Expected[]
}
const results = procedures.map(judged)

describe('the procedures from printed manuals', () => {
  it('are all expected, and nothing is expected of others', () => {
    const files = filesMatching('tests/corpus/*.md').map((path) => path.replace(/^.*\/|\.md$/g, ''))
    expect(procedures.map(({ procedure }) => procedure).sort()).toEqual(files)
  })

  it('say of each defect what reports it, or why nothing does', () => {
    const ways = (defect: Defect) =>
      [defect.expect, defect['not-mechanisable'], defect['no-kind']].filter((way) => way !== undefined).length
    const unclear = procedures.flatMap(({ procedure, defects }) =>
      defects.filter((defect) => ways(defect) !== 1).map(({ says }) => `${procedure}: ${says}`),
    )
    expect(unclear).toEqual([])
  })

  it('counts', () => {
    console.info(table())
  })
})

describe.each(results)('$procedure', ({ defects, found, expected }) => {
  it('has every defect reported that a check is there for', () => {
    const missed = defects.filter(({ verdict, defect }) => verdict === 'missed' && defect.missed === undefined)
    expect(missed.map(({ defect }) => `${named(defect)} at ${defect.at ?? defect.step}: ${defect.says}`)).toEqual([])
  })

  it('has no defect listed as missed that is reported', () => {
    expect(defects.filter(({ verdict, defect }) => verdict === 'found' && defect.missed !== undefined)).toEqual([])
  })

  it('has no false alarm', () => {
    expect(found.filter(({ because }) => because === null).map(({ says }) => says)).toEqual([])
  })

  it('is quiet where a figure is right', () => {
    const loud = (expected.quiet ?? []).filter(({ kind, at }) =>
      found.some(({ finding }) => finding.name === kind && finding.message.includes(at)),
    )
    expect(loud).toEqual([])
  })

  it('has no finding listed that is not reported any more', () => {
    const listed = [...(expected.also ?? []), ...(expected.wrong ?? [])].filter(({ finding }) =>
      registered.has(finding),
    )
    const stale = listed.filter((also) => !found.some((one) => isMeant(also, one)))
    expect(stale).toEqual([])
  })
})

interface Found {
  readonly finding: Finding
  readonly underlined: string
  /** Id of the step that it stands in, or null. */
  readonly step: string | null
  /** Why it is right, or null for a false alarm. */
  readonly because: string | null
  readonly says: string
}

function judged(expected: Expected) {
  const path = `tests/corpus/${expected.procedure}.md`
  const text = textOf(path)
  const compiled: Compiled = compileProcedure(path, openLibrary(mapLibrary({ [path]: text })))
  const places = compiled.findings.map((finding) => ({
    finding,
    underlined: text.slice(finding.at.start, finding.at.end),
    step: stepAt(text, finding.at.start),
  }))
  const defects = expected.defects.map((defect) => ({
    defect,
    verdict: verdictOn(defect, places),
  }))
  const found = places.map(
    (place): Found => ({
      ...place,
      because: reasonFor(expected, place),
      says: `${place.finding.name} at "${place.underlined.split('\n')[0]}" (step ${place.step}): ${place.finding.message}`,
    }),
  )
  return { procedure: expected.procedure, expected, defects, found }
}

type PlacedFinding = Pick<Found, 'finding' | 'underlined' | 'step'>

function verdictOn(defect: Defect, places: readonly PlacedFinding[]): Verdict {
  if (defect['not-mechanisable'] !== undefined) return 'not mechanisable'
  if (defect['no-kind'] !== undefined) return 'no kind yet'
  if (places.some((place) => isDefect(defect, place))) return 'found'
  return kindsOf(defect).every((kind) => registered.has(kind)) ? 'missed' : 'check to come'
}

function isDefect(defect: Defect, place: PlacedFinding): boolean {
  return (
    kindsOf(defect).includes(place.finding.name) && isThere(place, [defect.at ?? []].flat(), [defect.step ?? []].flat())
  )
}

/** A finding that underlines a whole step quotes the words that it means. */
function isThere(
  { finding, underlined, step }: PlacedFinding,
  texts: readonly string[],
  steps: readonly string[],
): boolean {
  const words = `${underlined}\n${finding.message}`
  return (
    (texts.length === 0 || texts.some((text) => words.includes(text))) &&
    (steps.length === 0 || steps.includes(step ?? ''))
  )
}

function kindsOf({ expect: kinds }: Defect): readonly string[] {
  return [kinds ?? []].flat()
}

function named(defect: Defect): string {
  return kindsOf(defect).join(' or ')
}

function reasonFor({ defects, also, wrong }: Expected, place: PlacedFinding): string | null {
  const defect = defects.find((one) => isDefect(one, place))
  if (defect !== undefined) return defect.says
  return [...(also ?? []), ...(wrong ?? []), ...everywhere].find((one) => isMeant(one, place))?.because ?? null
}

function isMeant({ finding: name, at, step }: Also, place: PlacedFinding): boolean {
  return place.finding.name === name && isThere(place, [at ?? []].flat(), [step ?? []].flat())
}

/** The id of the last step that begins above a place and is not above a heading. */
function stepAt(text: string, offset: number): string | null {
  const above = text.slice(0, text.indexOf('\n', offset) + 1 || text.length).split('\n')
  const last = above.findLastIndex((line) => /^(?:#{2,3}|\d+\.)\s/.test(line))
  return /^\d+\..*\{#([^}]+)\}/.exec(above[last] ?? '')?.[1] ?? null
}

function table(): string {
  const verdicts: readonly Verdict[] = ['found', 'missed', 'check to come', 'no kind yet', 'not mechanisable']
  const all = results.flatMap(({ defects }) => defects)
  const counts = (['readings', 'flow'] as const).map((group) => {
    const own = all.filter(({ defect }) => defect.group === group)
    return `${group}: ${verdicts.map((verdict) => `${own.filter((one) => one.verdict === verdict).length} ${verdict}`).join(', ')}`
  })
  const open = results.flatMap(({ procedure, defects }) =>
    defects
      .filter(({ verdict }) => verdict === 'missed' || verdict === 'check to come')
      .map(
        ({ verdict, defect }) =>
          `  ${verdict}: ${procedure} ${named(defect)} at ${defect.at ?? defect.step}: ${defect.says}`,
      ),
  )
  const others = results.flatMap(({ found }) => found)
  const false_ = results.flatMap(({ procedure, found, expected }) =>
    found
      .filter((one) => one.because === null || (expected.wrong ?? []).some((wrong) => isMeant(wrong, one)))
      .map(({ says }) => `  ${procedure} ${says}`),
  )
  return [...counts, `${others.length} findings in all, false alarms:`, ...false_, 'still open:', ...open].join('\n')
}
