import { parseNumber } from '../../quantities/parse-number.ts'
import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, isZero, multiply, rational, zero } from '../../quantities/rational.ts'

/** Thread designations: `1/2-13 UNC`, `1 1/4-12 UN`, `10-32`, `0.2500-28`, `M20`, `M20×1.5`. */

export interface ThreadSize {
  /** As printed: `1/2-13`, `M20×2.5`. */
  readonly name: string
  readonly system: 'metric' | 'inch'
  /** Nominal diameter in metres. */
  readonly diameter: Rational
  /** Pitch in metres. */
  readonly pitch: Rational
}

export type ThreadReading =
  | { readonly ok: true; readonly size: ThreadSize }
  | { readonly ok: false; readonly message: string; readonly advice: string }

export const inch = rational(254n, 10_000n)
const millimetre = rational(1n, 1000n)

/** Coarse pitches in mm by nominal diameter: ISO 261:1998, table 2 (from memory). */
const coarsePitches: Readonly<Record<string, string>> = {
  '1.6': '0.35',
  '2': '0.4',
  '2.5': '0.45',
  '3': '0.5',
  '3.5': '0.6',
  '4': '0.7',
  '5': '0.8',
  '6': '1',
  '7': '1',
  '8': '1.25',
  '10': '1.5',
  '12': '1.75',
  '14': '2',
  '16': '2',
  '18': '2.5',
  '20': '2.5',
  '22': '2.5',
  '24': '3',
  '27': '3',
  '30': '3.5',
  '33': '3.5',
  '36': '4',
  '39': '4',
  '42': '4.5',
  '45': '4.5',
  '48': '5',
  '52': '5',
  '56': '5.5',
  '60': '5.5',
  '64': '6',
}

/** Coarse and fine threads per inch, to name them where the pitch was left out: ASME B1.1-2003, table 1 (from memory). */
const inchSeries: Readonly<Record<string, readonly [unc: string, unf: string]>> = {
  '1/4': ['20', '28'],
  '5/16': ['18', '24'],
  '3/8': ['16', '24'],
  '7/16': ['14', '20'],
  '1/2': ['13', '20'],
  '9/16': ['12', '18'],
  '5/8': ['11', '18'],
  '3/4': ['10', '16'],
  '7/8': ['9', '14'],
  '1': ['8', '12'],
  '1-1/8': ['7', '12'],
  '1-1/4': ['7', '12'],
  '1-3/8': ['6', '12'],
  '1-1/2': ['6', '12'],
}

/** Number sizes are 0.060 in + 0.013 in a number (ASME B1.1); they have 24 threads per inch or more, larger sizes fewer. */
const firstNumberSize = rational(60n, 1000n)
const numberStep = rational(13n, 1000n)
const LARGEST_NUMBER_SIZE = 12
const fewestNumberThreads = rational(24)

const examples = 'Type the size with its pitch, such as `1/2-13`, `10-32`, `M20` or `M20×1.5`.'

/** Reads a designation; the class (`2A`, `6g`) and the letters of the series may follow and are not needed. */
export function readThreadSize(typed: string): ThreadReading {
  const text = typed.trim().replace(/[×*]/g, 'x').replace(/[‐‑–]/g, '-').replace(/["″]/g, '')
  const metric = /^M\s?(\d+(?:\.\d+)?)(?:\s?[x-]\s?(\d+(?:\.\d+)?))?(?:\s?-?\s?\d[a-hA-H]\w*)?$/.exec(text)
  if (metric) return metricSize(typed, metric[1] ?? '', metric[2])
  const bare = text.replace(/\s*-?\s*UN\w*(?:\s*-?\s*[123][AB])?\s*$/i, '').replace(/\s*-\s*[123][AB]$/i, '')
  const parts = /^(#|No\.?\s?)?\s*(.+?)\s*-\s*(\d+(?:\.\d+|\s1\/2)?)$/i.exec(bare)
  if (parts) {
    const size = inchSize(parts[1] !== undefined, parts[2] ?? '', parts[3] ?? '')
    if (size) return { ok: true, size }
  }
  const whole = /^(\d+(?:[-\s]\d+\/\d+)?|\d+\/\d+)$/.exec(bare)?.[1]?.replace(/\s/, '-')
  const series = whole === undefined ? undefined : inchSeries[whole]
  if (series)
    return {
      ok: false,
      message: `"${typed}" does not say how many threads per inch.`,
      advice: `Type \`${whole}-${series[0]}\` (coarse) or \`${whole}-${series[1]}\` (fine).`,
    }
  return { ok: false, message: `"${typed}" is not a thread size.`, advice: examples }
}

function metricSize(typed: string, diameterText: string, pitchText: string | undefined): ThreadReading {
  const diameter = numberOf(diameterText)
  const coarse = diameter === null ? undefined : coarsePitches[`${Number(diameterText)}`]
  const pitch = numberOf(pitchText ?? coarse ?? '')
  if (!diameter || !pitch)
    return {
      ok: false,
      message: `"${typed}" has no coarse pitch of its own.`,
      advice: `Add the pitch, such as \`M${diameterText}×1.5\`.`,
    }
  if (compare(multiply(pitch, rational(2)), diameter) > 0)
    return { ok: false, message: `The pitch of "${typed}" is too coarse for its diameter.`, advice: examples }
  return {
    ok: true,
    size: {
      name: `M${diameterText}×${pitchText ?? coarse}`,
      system: 'metric',
      diameter: multiply(diameter, millimetre),
      pitch: multiply(pitch, millimetre),
    },
  }
}

function inchSize(isNumber: boolean, sizeText: string, threadsText: string): ThreadSize | null {
  const size = numberOf(sizeText)
  const threads = numberOf(threadsText)
  if (!size || !threads || isZero(threads)) return null
  const isWhole = /^\d+$/.test(sizeText) && Number(sizeText) <= LARGEST_NUMBER_SIZE
  const isNumbered = isWhole && (isNumber || compare(threads, fewestNumberThreads) >= 0)
  if (isNumber && !isWhole) return null
  const inches = isNumbered ? add(firstNumberSize, multiply(size, numberStep)) : size
  const pitch = divide(inch, threads)
  const diameter = multiply(inches, inch)
  if (compare(multiply(pitch, rational(2)), diameter) > 0) return null
  return { name: `${sizeText}-${threadsText}`, system: 'inch', diameter, pitch }
}

/** A positive number, or null; number size 0 is 0. */
function numberOf(text: string): Rational | null {
  const number = parseNumber(text)
  return number.ok && compare(number.value.value, zero) >= 0 ? number.value.value : null
}
