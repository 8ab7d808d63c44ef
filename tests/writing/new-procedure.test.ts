import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { formatProcedure } from '../../src/writing/format/format-procedure.ts'
import { machineFacts, machinesOf } from '../../src/writing/new/machine-facts.ts'
import { newProcedure } from '../../src/writing/new/new-procedure.ts'
import { type Answers, jobKinds } from '../../src/writing/new/questions.ts'
import { mapLibrary } from '../map-library.ts'

const reader = mapLibrary({
  'shared/machines/dust-fan.yaml':
    'source: Invented.\nname: dust fan\nenergies:\n  supply: { kind: electrical, magnitude: 400 V, isolated-by: fan-isolator }\n  rotor: { kind: motion, magnitude: fan wheel }\n  tensioner: { kind: spring, magnitude: belt tensioner }\nisolation-points:\n  fan-isolator: { what: isolator, where: beside the fan, energy: supply }\n',
})
const library = openLibrary(reader)
const machine = machineFacts(reader, 'dust-fan')
const file = 'procedures/new/new.md'

const flags = ['isolation', 'pressure', 'guard', 'lift', 'hotWork', 'positions', 'machine'] as const

/** Bit by bit, one flag each. */
function answersOf(kind: Answers['kind'], bits: number): Answers {
  const is = (flag: (typeof flags)[number]): boolean => ((bits >> flags.indexOf(flag)) & 1) === 1
  return {
    title: 'Dust fan: a job',
    number: null,
    date: '2026-03-02',
    kind,
    equipment: 'dust fan',
    machine: is('machine') ? machine : null,
    isolation: is('isolation'),
    pressure: is('pressure'),
    guard: is('guard'),
    lift: is('lift'),
    hotWork: is('hotWork'),
    positions: is('positions') ? ['left', 'right'] : [],
  }
}

/** Every combination in the long run; else none, all, each alone, and some, so that every two flags meet in every way. */
const isLong = process.env.WITNESSMARK_LONG === '1'
const sample = [
  0, 127, 1, 2, 4, 8, 16, 32, 64, 0b0110011, 0b1010101, 0b1001110, 0b0101011, 0b1110100, 0b0011110, 0b1101001,
]
const combinations = jobKinds.flatMap((kind, index) =>
  (isLong ? [...Array(128).keys()] : sample.filter((_, at) => at < 2 || at % jobKinds.length === index)).map(
    (bits) => [kind, bits] as const,
  ),
)

function compiled(text: string) {
  const readText = (path: string) => (path === file ? ({ kind: 'text', text } as const) : reader.readText(path))
  return compileProcedure(file, { ...library, reader: { ...reader, readText } })
}

describe('a new procedure', () => {
  it('has nothing wrong in it but values to be filled, whatever is answered', () => {
    for (const [kind, bits] of combinations) {
      const text = newProcedure(answersOf(kind, bits))
      const { findings, stepFile } = compiled(text)
      const wrong = findings.filter(({ name }) => name !== 'document/value-to-fill').map(({ message }) => message)
      expect({ kind, bits: bits.toString(2), wrong }).toEqual({ kind, bits: bits.toString(2), wrong: [] })
      expect(stepFile).not.toBeNull()
      expect(formatProcedure(text)).toBe(text)
    }
  })

  it('begins as shown', () => {
    expect(newProcedure(answersOf('replace', 0b1000111))).toMatchSnapshot()
  })

  it('takes any words for a title and a machine', () => {
    for (const words of [
      'Fan: "belts" #2',
      '- [x] {#id} **bold**',
      'a\nb',
      "it's",
      '',
      '??',
      '<script>',
      '100 %: yes',
    ]) {
      const { findings } = compiled(newProcedure({ ...answersOf('service', 1), title: words, equipment: words }))
      expect(findings.filter(({ name }) => /^(?:syntax|schema|model)\//.test(name))).toEqual([])
    }
  })

  it('knows the machines of the library', () => {
    expect(machinesOf(reader)).toEqual(['dust-fan'])
    expect(machine?.isolationPoints).toEqual(['fan-isolator'])
    expect(machineFacts(reader, 'nothing')).toBeNull()
  })
})
