import type { StepFile } from '../step-file/step-file.ts'

type Property = StepFile['proof']['properties'][number]

/** What was shown of every way through the work, in words. */
export interface ShownProof {
  readonly head: string
  readonly lines: readonly ShownLine[]
  /** What stands beside every proof; empty where nothing was proved. */
  readonly beside: readonly string[]
}

export interface ShownLine {
  readonly says: string
  /** `rests on the proofs at 3.1, 3.2`; empty where it rests on none. */
  readonly restsOn: string
}

/** Everything that was shown, a line each. */
export function shownProof({ proof }: StepFile): ShownProof {
  return { head: headOf(proof), lines: proof.properties.map(lineOf), beside: besideOf(proof) }
}

/** The same for paper: what is put back and unlocked is counted, all else has a line each. */
export function shownProofInShort({ proof }: StepFile): ShownProof {
  const large = proof.properties.filter(({ kind }) => !['put-back', 'lock'].includes(kind))
  const count = (kind: Property['kind']) => proof.properties.filter((one) => one.kind === kind).length
  const rest = [
    counted(count('put-back'), 'thing ends', 'things end', 'as it must be'),
    counted(count('lock'), 'lock comes', 'locks come', 'off again'),
  ].filter((one) => one !== null)
  const last = rest.length === 0 ? [] : [{ says: `On every way: ${rest.join(', ')}.`, restsOn: '' }]
  return { head: headOf(proof), lines: [...large.map(lineOf), ...last], beside: besideOf(proof) }
}

function headOf({ verdict, situations, variants }: StepFile['proof']): string {
  switch (verdict) {
    case 'proved': {
      const kinds = variants > 1 ? `, ${variants} variants` : ''
      return `On every way through this work, as it is written, the following holds (${situations} situations looked at${kinds}).`
    }
    case 'faulty':
      return 'Not everything holds on every way: see the findings that were accepted. What holds all the same:'
    case 'not-proved':
      return 'Nothing is shown: there are more ways through this work than could be followed.'
    case 'nothing-to-prove':
      return 'There was nothing to prove: this document declares no states and no places where people can be hurt. That does not mean that nobody can be.'
  }
}

const lineOf = ({ says, provedAt }: Property): ShownLine => ({
  says,
  restsOn:
    provedAt.length === 0 ? '' : `rests on the proof${provedAt.length === 1 ? '' : 's'} at ${provedAt.join(', ')}`,
})

const besideOf = ({ verdict, notModelled }: StepFile['proof']): readonly string[] =>
  verdict === 'nothing-to-prove' ? [] : notModelled

function counted(count: number, one: string, many: string, what: string): string | null {
  if (count === 0) return null
  return `${count} ${count === 1 ? one : many} ${what}`
}
