import type { Words } from '../library/read-words.ts'
import { isVerb } from './instruction.ts'

const odd: Readonly<Record<string, string>> = {
  done: 'do',
  given: 'give',
  taken: 'take',
  put: 'put',
  set: 'set',
  cut: 'cut',
  held: 'hold',
  hung: 'hang',
  kept: 'keep',
  laid: 'lay',
  left: 'leave',
  made: 'make',
  read: 'read',
  shut: 'shut',
  driven: 'drive',
  drawn: 'draw',
  thrown: 'throw',
  written: 'write',
  shown: 'show',
  removal: 'remove',
  installation: 'install',
  inspection: 'inspect',
  adjustment: 'adjust',
  replacement: 'replace',
  lubrication: 'lubricate',
  alignment: 'align',
  measurement: 'measure',
  isolation: 'isolate',
  calibration: 'calibrate',
  disconnection: 'disconnect',
  connection: 'connect',
  inflation: 'inflate',
  verification: 'verify',
  preparation: 'prepare',
  operation: 'operate',
  rotation: 'rotate',
}

/** `loosened`, `loosening`, `loosens` and `removal` all come from a verb that the words know; null where none is found. */
export function baseVerbOf(word: string, words: Words): string | null {
  const known = Object.hasOwn(odd, word) ? odd[word] : undefined
  if (known !== undefined) return known
  const stem = /^(.*?)(?:ed|ing|es|s)$/.exec(word)?.[1]
  if (stem === undefined || stem.length < 2) return null
  // `taking` is of `take`, `tapped` of `tap`, `carried` of `carry`.
  const candidates = [
    word.replace(/(?:ing|s)$/, ''),
    stem,
    `${stem}e`,
    stem.replace(/(.)\1$/, '$1'),
    stem.replace(/i$/, 'y'),
  ]
  return candidates.find((candidate) => candidate !== word && isVerb(candidate, words)) ?? null
}
