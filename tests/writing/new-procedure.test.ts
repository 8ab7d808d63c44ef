import { describe, expect, it } from 'vitest'
import { compileProcedure, openLibrary } from '../../src/compile.ts'
import { formatProcedure } from '../../src/writing/format/format-procedure.ts'
import { newProcedure } from '../../src/writing/new/new-procedure.ts'
import { type Answers, jobKinds, type MachineFacts } from '../../src/writing/new/questions.ts'
import { mapLibrary } from '../map-library.ts'

const machineFile =
  'source: Invented.\nname: dust fan\nenergies:\n  supply: { kind: electrical, magnitude: 400 V, isolated-by: fan-isolator }\n  rotor: { kind: motion, magnitude: fan wheel }\n  spring: { kind: spring, magnitude: belt tensioner }\nisolation-points:\n  fan-isolator: { what: isolator, where: beside the fan, energy: supply }\n'
const machine: MachineFacts = {
  id: 'dust-fan',
  energies: [
    { id: 'supply', kind: 'electrical' },
    { id: 'rotor', kind: 'motion' },
    { id: 'spring', kind: 'spring' },
  ],
  isolationPoints: ['fan-isolator'],
}

const either = [false, true]
const all: readonly Answers[] = jobKinds.flatMap((kind) =>
  either.flatMap((isolation) =>
    either.flatMap((pressure) =>
      either.flatMap((guard) =>
        either.flatMap((lift) =>
          either.flatMap((hotWork) =>
            [[], ['left', 'right']].flatMap((positions) =>
              [null, machine].map((machine) => ({
                title: 'Dust fan: a job',
                number: null,
                date: '2026-03-02',
                kind,
                equipment: 'dust fan',
                machine,
                isolation,
                pressure,
                guard,
                lift,
                hotWork,
                positions,
              })),
            ),
          ),
        ),
      ),
    ),
  ),
)

const file = 'procedures/new/new.md'
const library = openLibrary(mapLibrary({ 'shared/machines/dust-fan.yaml': machineFile }))

function compiled(text: string) {
  const { reader } = library
  const withText = {
    ...reader,
    readText: (path: string) => (path === file ? ({ kind: 'text', text } as const) : reader.readText(path)),
  }
  return compileProcedure(file, { ...library, reader: withText })
}

describe('a new procedure', () => {
  it('has nothing wrong in it but values to be filled, whatever is answered', () => {
    const wrong = new Map<string, string>()
    for (const answers of all) {
      const { findings, stepFile } = compiled(newProcedure(answers))
      const names = findings.filter(({ name }) => name !== 'document/value-to-fill')
      const { kind, isolation, pressure, guard, lift, hotWork } = answers
      const asked = Object.entries({
        isolation,
        pressure,
        guard,
        lift,
        hotWork,
        machine: answers.machine,
        positions: answers.positions.length,
      })
        .filter(([, value]) => value)
        .map(([name]) => name)
        .join(' ')
      for (const one of names)
        if (!wrong.has(one.name)) wrong.set(one.name, `${kind} ${asked}: ${one.message} ${one.advice}`)
      if (stepFile === null && names.length === 0) wrong.set('no step file', `${kind} ${asked}`)
    }
    expect(Object.fromEntries(wrong)).toEqual({})
    expect(all).toHaveLength(512)
  })
})
