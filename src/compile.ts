import { catalogue } from './catalogue.ts'
import { acceptFindings } from './checks/accept-findings.ts'
import type { PlacedText } from './checks/check.ts'
import { checks } from './checks/list.ts'
import { raiseSeverity, severityFaults } from './checks/raise-severity.ts'
import { inOrderOfText, runChecks } from './checks/run-checks.ts'
import { type Finding, found, type Outcome } from './findings/finding.ts'
import { buildGraph } from './flow/build-graph.ts'
import type { FlowProof } from './flow/proof.ts'
import { type FlowMemory, newFlowMemory, proveFlowAgain } from './flow/prove-again.ts'
import { fileRefused } from './library/faults/faults.ts'
import type { LibraryReader } from './library/library-reader.ts'
import { type Catalogues, readCatalogues } from './library/read-catalogues.ts'
import { type LibraryConfiguration, readConfiguration } from './library/read-configuration.ts'
import { textOrFinding } from './library/read-library-file.ts'
import { readMachine } from './library/read-machine.ts'
import { readWords, type Words } from './library/read-words.ts'
import { type ModelMemory, newModelMemory } from './model/model-memory.ts'
import type { FragmentShelf, FragmentSource } from './model/passes/include-fragments.ts'
import type { Procedure } from './model/procedure.ts'
import { resolveProcedure } from './model/resolve-procedure.ts'
import { makeStepFile } from './step-file/make-step-file.ts'
import type { StepFile } from './step-file/step-file.ts'
import type { BlockNode } from './syntax/block-node.ts'
import { fitFragment, fitProcedure } from './syntax/fit-schema.ts'
import { mapPlaces } from './syntax/markdown/move-places.ts'
import { newReadingMemory, type ReadingMemory } from './syntax/markdown/reading-memory.ts'
import { readFragment } from './syntax/read-fragment.ts'
import { readProcedure, readProcedureAgain } from './syntax/read-procedure.ts'
import { offsetAt, textByAddress } from './text/addresses.ts'
import { type SourceText, sourceText } from './text/source-text.ts'

/** A library, opened once for all its procedures. */
export interface OpenLibrary {
  readonly reader: LibraryReader
  readonly configuration: LibraryConfiguration
  readonly catalogues: Catalogues
  /** Words that the wording is judged by. */
  readonly words: Words
  /** Faults of `witnessmark.yaml` and of `shared/`. */
  readonly findings: readonly Finding[]
  readonly sources: readonly SourceText[]
}

export interface Compiled {
  /** In the order of the text; those of the library itself are with the library. */
  readonly findings: readonly Finding[]
  /** Null where an error stands in the way. */
  readonly stepFile: StepFile | null
  /** What holds on every way; null where the text cannot be followed yet. */
  readonly flow: FlowProof | null
  /** What was understood, errors or not, for whoever looks over the writer's shoulder; null where there is no such file. */
  readonly procedure: Procedure | null
  /** Every text that a finding may point into. */
  readonly sources: readonly SourceText[]
}

export function openLibrary(reader: LibraryReader): OpenLibrary {
  const configuration = readConfiguration(reader)
  const catalogues = readCatalogues(reader)
  const words = readWords(reader)
  const asked = configuration.value.configuration.checks
  const told = [
    ...configuration.findings,
    ...severityFaults(asked, catalogue),
    ...catalogues.findings,
    ...words.findings,
  ]
  return {
    reader,
    configuration: configuration.value.configuration,
    catalogues: catalogues.value.catalogues,
    words: words.value.words,
    findings: raiseSeverity(told, asked),
    sources: [...configuration.value.sources, ...catalogues.value.sources, ...words.value.sources],
  }
}

/** What is kept between compiles of one procedure while somebody types; whoever compiles owns it and looks into none of it. */
export interface CompileMemory {
  readonly reading: ReadingMemory
  readonly shared: SharedMemory
  readonly model: ModelMemory
  readonly flow: FlowMemory
}

export function newMemory(): CompileMemory {
  return { reading: newReadingMemory(), shared: new Map(), model: newModelMemory(), flow: newFlowMemory() }
}

/**
 * The staircase: a text comes in, and leaves as findings and a step file.
 *
 *     text ─► syntax ─► model ─► flow ─► checks ─► step file
 *
 * @param file path of the procedure in its library
 * @param memory makes the next compile faster where little has changed; the result is the same with and without it
 */
export function compileProcedure(file: string, library: OpenLibrary, memory: CompileMemory | null = null): Compiled {
  const { text, finding } = textOrFinding(library.reader, file)
  if (text === null)
    return { findings: [finding ?? missing(file)], stepFile: null, flow: null, procedure: null, sources: [] }
  const shelves = openShelves(library.reader, memory?.shared ?? null)
  const configuration = { ...library.configuration.checks, words: library.words }
  const source = sourceText(file, text)

  const read = memory === null ? readProcedure(source) : readProcedureAgain(source, memory.reading)
  const stretches = memory?.reading.stretches ?? null
  const written = fitProcedure(read.value)
  const resolved = resolveProcedure(
    written.value,
    {
      library: library.reader,
      defaults: library.configuration,
      catalogues: {
        ...library.catalogues,
        roles: new Map([...library.catalogues.roles, ...library.configuration.roles]),
      },
      fragments: shelves.fragments,
      machine: shelves.machine,
    },
    memory?.model ?? null,
  )
  const procedure = { ...resolved.value, graph: buildGraph(resolved.value) }
  const earlier = [...read.findings, ...written.findings, ...resolved.findings]
  // A document that cannot be read is not judged: what the checks would miss in it was never lost by its author.
  const unreadable = written.value.phases.length === 0
  // Ways are followed once the text is read without an error: half a step would only make the other half look wrong.
  const isFollowed = !unreadable && earlier.every((one) => one.severity !== 'error')
  const flow = isFollowed ? proveFlowAgain(procedure, memory?.flow ?? null) : null
  const texts = new Map<string, PlacedText>(shelves.sources.map((one) => [one.path, one.text]))
  texts.set(file, stretches === null ? text : textByAddress(stretches, text))
  const checked = unreadable ? [] : runChecks({ procedure, written: written.value, configuration, flow, texts }, checks)
  const { findings, accepted } = acceptFindings(
    procedure,
    raiseSeverity([...earlier, ...checked].sort(inOrderOfText), configuration),
    configuration,
  )

  const blocked = [...library.findings, ...findings].some((one) => one.severity === 'error')
  const inText = <Value>(value: Value): Value =>
    stretches === null ? value : mapPlaces(value, file, (address) => offsetAt(stretches, address))
  // While somebody types, nobody looks at a step file.
  const stepFile = onceAsked(() =>
    blocked || flow === null ? null : makeStepFile(procedure, flow, findings, accepted),
  )
  const understood = onceAsked(() => inText(procedure))
  return {
    findings: inText(findings),
    get stepFile() {
      return stepFile()
    },
    flow: inText(flow),
    get procedure() {
      return understood()
    },
    sources: [source, ...shelves.sources],
  }
}

/** Made when it is asked for first, and kept. */
function onceAsked<Value>(make: () => Value): () => Value {
  let made: { readonly value: Value } | null = null
  return () => {
    made ??= { value: make() }
    return made.value
  }
}

function missing(file: string): Finding {
  return found(fileRefused, {
    at: { file, start: 0, end: 0 },
    message: `There is no file ${file}.`,
    advice: 'Check the name and the folder.',
  })
}

/** Fragments by their path, each as it was read from its text. */
type SharedMemory = Map<string, { readonly text: string; readonly fragment: Outcome<FragmentSource | null> }>

/** Fragments and machine files, read when first asked for. */
function openShelves(reader: LibraryReader, memory: SharedMemory | null) {
  const sources: SourceText[] = []
  const ids = reader
    .listFolder('shared/fragments')
    .filter((path) => path.endsWith('.md') && !path.endsWith('/README.md'))
    .map((path) => path.slice('shared/fragments/'.length, -'.md'.length))
  const fragments: FragmentShelf = {
    ids,
    read: (id): Outcome<FragmentSource | null> => {
      const path = `shared/fragments/${id}.md`
      const { text, finding } = textOrFinding(reader, path)
      if (text === null) return { value: null, findings: finding ? [finding] : [] }
      const source = sourceText(path, text)
      sources.push(source)
      const known = memory?.get(path)
      if (known?.text === text) return known.fragment
      const fragment = fittedFragment(source)
      memory?.set(path, { text, fragment })
      return fragment
    },
  }
  const machine = (id: string): Outcome<BlockNode | null> => {
    const file = readMachine(reader, id)
    if (file.value.source) sources.push(file.value.source)
    return { value: file.value.value, findings: file.findings }
  }
  return { fragments, machine, sources }
}

/** A fragment's blocks are judged as those of a phase and its steps. */
function fittedFragment(source: SourceText): Outcome<FragmentSource> {
  const read = readFragment(source)
  const fitted = fitFragment(read.value)
  const { frontMatter, prose, block, steps } = fitted.value
  return {
    value: { frontMatter: frontMatter?.map ?? null, prose, block, steps },
    findings: [...read.findings, ...fitted.findings],
  }
}
