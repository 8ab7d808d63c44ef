import { existsSync, mkdirSync, writeFileSync } from 'node:fs'
import { dirname, join, resolve } from 'node:path'
import process from 'node:process'
import { createInterface } from 'node:readline/promises'
import { findLibraryRoot } from '../../devices/find-library-root.ts'
import { libraryOnDisk } from '../../devices/library-on-disk.ts'
import { whyNotWritten } from '../../devices/write-output.ts'
import { identifierFrom } from '../../text/identifier.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { machineFacts, machinesOf } from '../../writing/new/machine-facts.ts'
import { newProcedure } from '../../writing/new/new-procedure.ts'
import {
  type Answers,
  type JobKind,
  jobKinds,
  type MachineFacts,
  type Question,
  questions,
} from '../../writing/new/questions.ts'
import { shownPath } from './shown-path.ts'
import type { Surroundings } from './surroundings.ts'

export interface NewOptions {
  readonly title?: string
  readonly number?: string
  readonly kind?: string
  readonly equipment?: string
  readonly machine?: string
  readonly isolation?: boolean
  readonly pressure?: boolean
  readonly guard?: boolean
  readonly lift?: boolean
  readonly hotWork?: boolean
  readonly positions?: string
}

type Typed = Partial<Record<Question['name'], string | boolean>>

/**
 * `witnessmark new`: a procedure to begin with, written where nothing stands yet. What no option answers is asked where a
 * person sits at the keyboard; else it is left out, and only a title must be given.
 */
export async function newCommand(
  target: string | undefined,
  options: NewOptions,
  surroundings: Surroundings,
): Promise<number> {
  const { folder, say } = surroundings
  const root = findLibraryRoot(join(resolve(folder, target ?? '.'), 'new.md'))
  const library = libraryOnDisk(existsSync(root) ? root : folder)
  const machines = machinesOf(library)
  const canAsk = process.stdin.isTTY === true && surroundings.isTerminal
  const typed: Typed | null = canAsk ? await askRest(options, machines, say) : { ...options }
  if (typed === null) {
    say('\nStopped. Nothing was written.\n')
    return 2
  }
  const wrong = whatIsWrong(typed, machines)
  if (wrong !== null) {
    say(`error: ${wrong}\n`)
    return 2
  }
  const machine =
    typeof typed.machine === 'string' && typed.machine !== '' ? machineFacts(library, typed.machine) : null
  const answers = answersFrom(typed, machine, today(surroundings.now()))
  const path = pathFor(target, answers.title, folder)
  if (existsSync(path)) {
    say(
      `error: ${shownPath(path, folder)} is there already, and nothing was changed. Give another title, or name a file: witnessmark new other-name.md\n`,
    )
    return 2
  }
  try {
    mkdirSync(dirname(path), { recursive: true })
    writeFileSync(path, newProcedure(answers), { flag: 'wx' })
  } catch (error) {
    say(`${shownPath(path, folder)} could not be written: ${whyNotWritten(error)}\n`)
    return 1
  }
  surroundings.print(`${shownPath(path, folder)}\n`)
  say('Fill in every ??, and walk through it at the machine. Then: witnessmark check ' + `${shownPath(path, folder)}\n`)
  return 0
}

function whatIsWrong(typed: Typed, machines: readonly string[]): string | null {
  if (typeof typed.title !== 'string' || typed.title.trim() === '')
    return 'a title is wanted: --title "Dust fan: change the belts".'
  if (typed.kind !== undefined && !jobKinds.includes(typed.kind as JobKind))
    return `--kind is one of ${jobKinds.join(', ')}; "${typed.kind}" is none of them.`
  if (typeof typed.machine !== 'string' || typed.machine === '' || machines.includes(typed.machine)) return null
  const near = nearestName(typed.machine, machines)
  return `there is no machine file shared/machines/${typed.machine}.yaml.${near === null ? '' : ` Did you mean ${near}?`}`
}

function answersFrom(typed: Typed, machine: MachineFacts | null, date: string): Answers {
  const words = (name: Question['name']): string => (typeof typed[name] === 'string' ? String(typed[name]).trim() : '')
  const is = (name: Question['name']): boolean => typed[name] === true
  const title = words('title')
  return {
    title,
    number: words('number') || null,
    date,
    kind: (words('kind') || 'inspect') as JobKind,
    equipment: words('equipment') || machine?.id.replaceAll('-', ' ') || lowerFirst(title.split(':')[0] ?? ''),
    machine,
    isolation: is('isolation'),
    pressure: is('pressure'),
    guard: is('guard'),
    lift: is('lift'),
    hotWork: is('hotWork'),
    positions: words('positions')
      .split(/[\s,]+/)
      .filter(Boolean),
  }
}

const lowerFirst = (words: string): string => words.charAt(0).toLowerCase() + words.slice(1)

/** A file that was named; in a folder that was named; else in `procedures/`, in a folder of its own. */
function pathFor(target: string | undefined, title: string, folder: string): string {
  const name = identifierFrom(title)
  if (target?.endsWith('.md')) return resolve(folder, target)
  return join(resolve(folder, target ?? 'procedures'), name, `${name}.md`)
}

/** Null where whoever was asked stopped with Ctrl-C or Ctrl-D. */
async function askRest(
  options: NewOptions,
  machines: readonly string[],
  say: (text: string) => void,
): Promise<Typed | null> {
  const typed: Typed = { ...options }
  const lines = createInterface({ input: process.stdin, output: process.stderr })
  try {
    for (const question of questions) {
      if (typed[question.name] !== undefined) continue
      if (question.takes === 'machine' && machines.length === 0) continue
      typed[question.name] = await ask(question, machines, (text) => lines.question(text), say)
    }
  } catch (error) {
    if (error instanceof Error && error.name === 'AbortError') return null
    throw error
  } finally {
    lines.close()
  }
  return typed
}

async function ask(
  question: Question,
  machines: readonly string[],
  read: (text: string) => Promise<string>,
  say: (text: string) => void,
): Promise<string | boolean> {
  if (question.help !== '') say(`\n${question.help}\n`)
  if (question.takes === 'choice') for (const [value, says] of question.choices) say(`  ${value}: ${says}\n`)
  if (question.takes === 'machine') say(`  ${machines.join(', ')}\n`)
  const choices =
    question.takes === 'choice'
      ? question.choices.map(([value]) => value)
      : question.takes === 'machine'
        ? ['', ...machines]
        : null
  for (;;) {
    const answer = (await read(`${question.asks}${question.takes === 'yes or no' ? ' (y/n)' : ''} `)).trim()
    if (question.takes === 'yes or no') {
      if (/^(?:y|yes|n|no|)$/i.test(answer)) return /^y/i.test(answer)
      say('Type y or n.\n')
    } else if (question.name === 'title' && answer === '') say('A title is wanted.\n')
    else if (choices !== null && !choices.includes(answer)) say(`Type one of: ${choices.filter(Boolean).join(', ')}.\n`)
    else return answer
  }
}

/** The day at this place. */
function today(now: number): string {
  const date = new Date(now)
  const two = (number: number): string => String(number).padStart(2, '0')
  return `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`
}
