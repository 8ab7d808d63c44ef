import { words as wordsOfTheTrade } from '#generated/words'
import type { Finding, Outcome } from '../findings/finding.ts'
import { type BlockNode, valueAt } from '../syntax/block-node.ts'
import type { SourceText } from '../text/source-text.ts'
import type { LibraryReader } from './library-reader.ts'
import { readLibraryFile } from './read-library-file.ts'

/** An expression in small letters, with what is said of it. */
export type Expressions = ReadonlyMap<string, string>

/** The words that the wording of steps is judged by. */
export interface Words {
  /** Verbs that an instruction may begin with. */
  readonly verbs: ReadonlySet<string>
  /** Words that leave it to the reader how much, when or how good, with what to write in their place. */
  readonly vague: Expressions
  /** Expressions with such a word that are all right, with the reason. */
  readonly allowed: Expressions
  /** Words that do not say what the hands do, with what to write in their place. */
  readonly unclear: Expressions
  /** Verbs with one meaning, and which. */
  readonly meanings: Expressions
  /** Short words that everybody knows, as typed, with what they mean. */
  readonly abbreviations: Expressions
  /** Names that are not used, in small letters, with the name that is. */
  readonly otherNames: Expressions
}

export interface ReadWords {
  readonly words: Words
  readonly sources: readonly SourceText[]
}

interface TypedWords {
  readonly verbs: readonly string[]
  readonly expressions: (topic: Topic) => readonly (readonly [string, string])[]
  readonly names: readonly (readonly [string, readonly string[]])[]
}

type Topic = 'vague' | 'allowed' | 'unclear' | 'meanings' | 'abbreviations'

const builtIn: TypedWords = {
  verbs: wordsOfTheTrade.verbs,
  expressions: (topic) => Object.entries(wordsOfTheTrade[topic]),
  names: Object.entries(wordsOfTheTrade.names),
}

/** What the checker knows by itself, and what is used where a library has no words of its own. */
export const wordsBuiltIn: Words = merged([builtIn])

/** Reads every `shared/words/*.yaml`: what stands there is added to the words that are built in. */
export function readWords(reader: LibraryReader): Outcome<ReadWords> {
  const findings: Finding[] = []
  const sources: SourceText[] = []
  const files = reader.listFolder('shared/words').filter((path) => /\.ya?ml$/.test(path))
  const typed = files.flatMap((path) => {
    const file = readLibraryFile(reader, path, 'library/words')
    findings.push(...file.findings)
    if (file.value.source) sources.push(file.value.source)
    return file.value.value ? [typedIn(file.value.value)] : []
  })
  const words = typed.length === 0 ? wordsBuiltIn : merged([builtIn, ...typed])
  return { value: { words, sources }, findings }
}

/** A later list wins; what one list allows, the lists before it do not call vague any more. */
function merged(lists: readonly TypedWords[]): Words {
  const all = (topic: Topic) => lists.flatMap((list) => list.expressions(topic))
  const low = (topic: Topic) => new Map(all(topic).map(([word, says]) => [inSmallLetters(word), says]))
  const allowed = low('allowed')
  return {
    // "Ensure" orders something, although nobody knows what.
    verbs: new Set([
      ...lists.flatMap((list) => list.verbs),
      ...[...low('unclear').keys()].map((expression) => expression.replace(/ .*/, '')),
    ]),
    vague: new Map([...low('vague')].filter(([word]) => !allowed.has(word))),
    allowed,
    unclear: new Map([...low('unclear')].filter(([word]) => !allowed.has(word))),
    meanings: low('meanings'),
    abbreviations: new Map(all('abbreviations')),
    otherNames: new Map(
      lists.flatMap((list) =>
        list.names.flatMap(([name, others]) => others.map((other) => [inSmallLetters(other), name] as const)),
      ),
    ),
  }
}

/** Blanks count once, and an apostrophe is an apostrophe. */
function inSmallLetters(text: string): string {
  return text.trim().toLowerCase().replace(/\s+/g, ' ').replaceAll('’', "'")
}

function typedIn(file: BlockNode): TypedWords {
  const names = valueAt(file, 'names')
  return {
    verbs: textsIn(valueAt(file, 'verbs')),
    expressions: (topic) => {
      const map = valueAt(file, topic)
      const entries = map?.kind === 'map' ? map.entries : []
      return entries.flatMap(({ key, value }) => (value.kind === 'scalar' ? [[key, value.text] as const] : []))
    },
    names: names?.kind === 'map' ? names.entries.map(({ key, value }) => [key, textsIn(value)]) : [],
  }
}

function textsIn(node: BlockNode | undefined): readonly string[] {
  return node?.kind === 'list' ? node.items.flatMap((item) => (item.kind === 'scalar' ? [item.text] : [])) : []
}
