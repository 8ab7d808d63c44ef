import { formatProcedure } from '../format/format-procedure.ts'
import { documentBlock } from './document-block.ts'
import { phasesOf } from './phases.ts'
import type { Answers } from './questions.ts'
import { written } from './skeleton.ts'
import { plainWords } from './yaml-text.ts'

/**
 * A procedure to begin with: it compiles, and the only things found in it are the values still to be filled (`??`).
 * Its order is that of good practice: prepare, make safe and prove it, work, look over, hand back.
 * What is right for the machine comes from local law, the site's rules and the maker, and from whoever fills it in.
 */
export function newProcedure(answers: Answers): string {
  const title = oneLine(answers.title) || 'A new procedure'
  const front = [
    ['number', oneLine(answers.number ?? '') || '??'],
    ['title', title],
    ['revision', 'A'],
    ['status', 'draft'],
    ['date', answers.date],
  ] as const
  const equipment = plainWords(answers.equipment) || 'machine'
  const filled = { ...answers, equipment }
  return formatProcedure(`${written(front, title, purpose(filled), documentBlock(filled), phasesOf(filled))}\n`)
}

const oneLine = (text: string): string => text.replace(/\s+/g, ' ').trim()

function purpose({ equipment, machine }: Answers): readonly string[] {
  const named = machine === null ? equipment : `${equipment} (${machine.id})`
  return [
    `This job is done on the ${named}. Write here what it is for, when it is due, and how many people it takes.`,
    'Local law, the rules of the site and the maker’s manual come first. Isolation, lifting and hot work are for people who are qualified and authorised for them.',
  ]
}
