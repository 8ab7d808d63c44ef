import { readdirSync, readFileSync } from 'node:fs'
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { openLibrary } from '../../src/compile.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'
import { proveFlow } from '../../src/flow/prove-flow.ts'
import type { LibraryReader } from '../../src/library/library-reader.ts'
import { mapLibrary } from '../map-library.ts'
import { naiveLengths, provedLengths } from './flow-faults.ts'
import { type Mutant, mutantsOf } from './mutants.ts'
import { exploreNaively } from './naive-explorer.ts'
import { oneSided } from './one-sided.ts'
import { procedureOf } from './procedure-of.ts'

const isLong = process.env.WITNESSMARK_LONG === '1'
const disk = libraryOnDisk('.')
const FILE = 'procedures/example/example.md'
const HUB = 'procedures/haul-truck-front-wheel-hub/haul-truck-front-wheel-hub.md'

interface Original {
  readonly name: string
  readonly file: string
  readonly text: string
  readonly sample: number
}

const dangers = new URL('dangers/', import.meta.url)
const truck = readFileSync(new URL('haul-truck-40.yaml', dangers), 'utf8')
const originals: readonly Original[] = [
  ...readdirSync(dangers)
    .filter((name) => name.endsWith('.repaired.md'))
    .sort()
    .map((name) => ({ name, file: FILE, text: readFileSync(new URL(name, dangers), 'utf8'), sample: 8 })),
  { name: 'hub, one side', file: HUB, text: oneSided(readFileSync(HUB, 'utf8')), sample: 5 },
]

function procedureWith(file: string, text: string) {
  const own = mapLibrary({ [file]: text, 'shared/machines/haul-truck-40.yaml': truck })
  const reader: LibraryReader = {
    ...disk,
    readText: (path) => {
      const found = own.readText(path)
      return found.kind === 'text' ? found : disk.readText(path)
    },
  }
  return procedureOf(file, reader, openLibrary(reader))
}

interface Tally {
  dangerous: number
  found: number
  harmless: number
  alarms: number
}

describe('procedures with one thing done wrong', () => {
  const tallies = new Map<string, Tally>()
  const missed: string[] = []
  const falseAlarms: string[] = []

  it.each(originals)('$name', { timeout: 1_800_000 }, ({ name, file, text, sample }) => {
    expect([...naiveLengths(exploreNaively(procedureWith(file, text).procedure)).keys()]).toEqual([])
    for (const mutant of isLong ? mutantsOf(text) : sampleOf(mutantsOf(text), sample)) judge(name, file, mutant)
  })

  function judge(name: string, file: string, mutant: Mutant): void {
    const { procedure, findings } = procedureWith(file, mutant.text)
    expect(
      findings.filter((finding) => finding.severity === 'error').map((finding) => finding.message),
      `${name}, ${mutant.kind}: ${mutant.at}`,
    ).toEqual([])
    const naive = [...naiveLengths(exploreNaively(procedure)).keys()]
    const proved = [...provedLengths(proveFlow(procedure)).keys()]
    const tally = tallies.get(mutant.kind) ?? { dangerous: 0, found: 0, harmless: 0, alarms: 0 }
    tallies.set(mutant.kind, tally)
    const said = `${name}, ${mutant.kind} at "${mutant.at}": naive ${naive.join(', ') || 'nothing'}; proof ${proved.join(', ') || 'nothing'}`
    if (naive.length > 0) {
      tally.dangerous++
      if (proved.length > 0) tally.found++
      else missed.push(said)
    } else {
      tally.harmless++
      if (proved.length > 0) tally.alarms++
      if (proved.length > 0) falseAlarms.push(said)
    }
  }

  it('are found where they are dangerous, and left alone where they are not', () => {
    const rows = [...tallies].map(
      ([kind, { dangerous, found, harmless, alarms }]) =>
        `${kind}: ${found} of ${dangerous} dangerous found, ${alarms} alarms at ${harmless} harmless`,
    )
    console.info(rows.join('\n'))
    const all = [...tallies.values()]
    const dangerous = all.reduce((sum, tally) => sum + tally.dangerous, 0)
    const found = all.reduce((sum, tally) => sum + tally.found, 0)
    expect(dangerous).toBeGreaterThan(30)
    expect(falseAlarms).toEqual([])
    expect(found / dangerous, missed.join('\n')).toBeGreaterThanOrEqual(0.95)
  })
})

/** Some of them, the same ones each time. */
function sampleOf(mutants: readonly Mutant[], count: number): readonly Mutant[] {
  const [chosen = []] = fc.sample(
    fc.shuffledSubarray([...mutants], { minLength: Math.min(count, mutants.length), maxLength: count }),
    {
      seed: 20260302,
      numRuns: 1,
    },
  )
  return chosen
}
