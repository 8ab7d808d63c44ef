import type { Fault } from '../../findings/finding.ts'
import { isSameScale } from '../../quantities/accuracy.ts'
import { isSameKind } from '../../quantities/expression-kinds.ts'
import type { QuantityKind } from '../../quantities/quantity-types.ts'
import { kindInWords } from '../../quantities/units.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyInstrumentUse, type InstrumentData, instrumentData } from '../instruments.ts'

/** A torque read off a pressure gauge: the wrong name was typed, or the wrong unit. */
export const instrumentOfAnotherKind: Check = {
  name: 'readings/instrument-of-another-kind',
  severity: 'error',
  title: 'The instrument measures something else than the limit asks for.',
  rules: ['NU-09', 'NU-21'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { name, kind, limit, tools, at } of everyInstrumentUse(procedure)) {
      // A limit that could not be read, or a torque that is none, is reported as that.
      if (limit.kind === '' || (kind === 'torque' && limit.kind !== 'torque')) continue
      for (const tool of tools) {
        const other = otherKind(instrumentData(tool), limit.kind)
        if (other === null) continue
        yield {
          at,
          message: `"${name}" is ${kindInWords(limit.kind)} (${limit.typed}), but ${tool.id} measures ${other}.`,
          advice: 'Name the instrument that reads it, or correct the unit of the limit.',
          related: [{ at: tool.at, message: `${tool.id} is listed here.` }],
        }
      }
    }
  },
}

/** What the instrument measures instead, in words; null where it may well read this kind, or nobody wrote what it reads. */
function otherKind({ range, resolution, measures }: InstrumentData, wanted: QuantityKind): string | null {
  const reads = range?.kind ?? resolution?.kind ?? null
  const says = measures === null ? null : kindsSaidIn(measures)
  if (says?.some((kind) => fits(kind, wanted))) return null
  if (reads !== null) return fits(reads, wanted) ? null : kindInWords(reads)
  return says === null || says.length === 0 ? null : (measures ?? null)
}

const fits = (one: QuantityKind, other: QuantityKind): boolean => isSameKind(one, other) || isSameScale(one, other)

/** The words under `measures` that name a kind of quantity. Others say nothing: `belt tension`, `wear`. */
const kindWords: readonly (readonly [word: RegExp, kind: QuantityKind])[] = [
  [/\btorque\b/, 'torque'],
  [/\bpressure\b|\bvacuum\b/, 'pressure'],
  [/\btemperature\b/, 'temperature'],
  [/\blength\b|\btravel\b|\bdepth\b|\bthickness\b|\bdiameter\b|\bgap\b|\bdistance\b/, 'length'],
  [/\bforce\b|\bpull\b/, 'force'],
  [/\bmass\b|\bweight\b/, 'mass'],
  [/\bvoltage\b/, 'voltage'],
  [/\bcurrent\b/, 'current'],
  [/\bresistance\b|\binsulation\b/, 'resistance'],
  [/\bfrequency\b/, 'frequency'],
  [/\bspeed\b/, 'rotational-speed'],
  [/\bspeed\b/, 'speed'],
  [/\bangle\b/, 'angle'],
  [/\bslope\b|\blevel\b/, 'slope'],
  [/\bflow\b/, 'flow'],
  [/\bvolume\b/, 'volume'],
  [/\btime\b/, 'time'],
]

function kindsSaidIn(measures: string): readonly QuantityKind[] {
  return kindWords.filter(([word]) => word.test(measures.toLowerCase())).map(([, kind]) => kind)
}
