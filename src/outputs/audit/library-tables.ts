import type { StepFile } from '../../step-file/step-file.ts'
import { zoneInWords } from '../../wording/people-text.ts'
import { claimsInWords, inWords } from '../../wording/state-text.ts'
import { type AuditCell, type AuditTable, cell, strongCell } from './audit-table.ts'
import { hotWorkLines, liftLines } from './danger-work.ts'
import { energyLines, lockLines } from './energy-lines.ts'
import { exposuresOf } from './exposure.ts'
import { acceptedLines } from './exposure-lines.ts'
import { hazardLines } from './hazard-lines.ts'
import type { AuditedDocument } from './library-documents.ts'
import { documentCell, documentRow } from './library-rows.ts'
import { placesInShort } from './places.ts'
import { PROOF_WORDS, proofLines, roleLines } from './proof-ways.ts'

/** Everything else, a table a question, in the order in which they are asked. */
export function libraryTables(documents: readonly AuditedDocument[]): readonly AuditTable[] {
  return [
    proofTable(documents),
    hazardTable(documents),
    roleTable(documents),
    zoneTable(documents),
    energyTable(documents),
    lockTable(documents),
    hotWorkTable(documents),
    liftTable(documents),
    acceptedTable(documents),
    findingTable(documents),
  ]
}

/** One row a line, with the procedure in the second column. */
function table<Line>(
  parts: Omit<AuditTable, 'rows'>,
  documents: readonly AuditedDocument[],
  linesOf: (stepFile: StepFile) => readonly Line[],
  cellsOf: (line: Line) => readonly AuditCell[],
  rolesOf: (line: Line) => readonly string[] = () => [],
): AuditTable {
  const rows = documents.flatMap((document) =>
    linesOf(document.stepFile).map((line) => {
      const [first, ...others] = cellsOf(line)
      return documentRow(document, [first ?? cell(''), documentCell(document), ...others], rolesOf(line))
    }),
  )
  return { ...parts, rows }
}

const proofTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'proofs',
      title: 'What each proof proves, how, and how it can be lost',
      says: 'By signature of who looked, by a reading in limit, by a test passed. “No proof” means that a step says it proves something, and nothing there counts as proof.',
      none: 'Nothing in these procedures proves anything.',
      columns: [
        'How',
        'Procedure',
        'Step',
        'Proves',
        'By',
        'Another person',
        'Places that rest on it',
        'How it goes stale, is lost or passed by',
      ],
    },
    documents,
    proofLines,
    (line) => [
      line.kind === 'word' ? strongCell(PROOF_WORDS.word) : cell([PROOF_WORDS[line.kind], line.signature]),
      cell(line.place),
      cell(line.proves),
      cell(line.who),
      /^yes$|^nobody signs$/.test(line.independent) ? cell(line.independent) : strongCell(line.independent),
      cell(line.rests === '' ? 'none' : line.rests),
      cell(line.lost),
    ],
  )

const hazardTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'hazards',
      title: 'Each danger, what controls it, which steps it stands at, and what proves it held',
      says: 'DANGER and WARNING. “On every way” is what was shown by following every way through the procedure.',
      none: 'No danger is named. That does not mean that there is none.',
      columns: ['Word', 'Procedure', 'Danger', 'Controls', 'Steps it guards', 'Proved at', 'On every way'],
    },
    documents,
    hazardLines,
    (line) => [
      cell(line.word),
      cell(line.what),
      cell(line.controls),
      cell(line.steps),
      line.isProved ? cell(line.proved) : strongCell(line.proved),
      line.everyWay === 'yes' ? cell('yes') : strongCell(line.everyWay),
    ],
  )

const roleTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'roles',
      title: 'Signatures by who gives them',
      says: 'In the order of each job.',
      none: 'No signature is asked for.',
      columns: ['Role', 'Procedure', 'Who that is', 'Must be another person than', 'Signs'],
    },
    documents,
    roleLines,
    (line) => [
      cell(line.role),
      cell(line.who),
      line.different === '' ? strongCell('nobody is named') : cell(line.different),
      cell(line.signs),
    ],
    (line) => [line.role],
  )

const zoneTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'places',
      title: 'Places, and the states they rest on',
      says: 'A place is safe only while all of its states are so.',
      none: 'No place is named where people can be hurt.',
      columns: ['Place', 'Procedure', 'Safe only when', 'Let in by', 'Somebody is there at'],
    },
    documents,
    (stepFile) => {
      const exposures = exposuresOf(stepFile)
      return stepFile.zones.map((zone) => ({
        name: zoneInWords(stepFile, zone.id),
        safeWhen: claimsInWords(stepFile, zone.safeWhen),
        entry: zone.entry === null ? '' : inWords(zone.entry),
        steps: placesInShort(exposures.find((one) => one.zone === zone)?.steps ?? []),
      }))
    },
    (line) => [
      cell(line.name),
      line.safeWhen === '' ? strongCell('no state is named') : cell(line.safeWhen),
      cell(line.entry),
      cell(line.steps === '' ? 'no step' : line.steps),
    ],
  )

const energyTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'energies',
      title: 'Energies, made safe, proved and let go again',
      says: 'Those of the machine file, then those that only the procedure names.',
      none: 'No energy is named. That does not mean that there is none.',
      columns: ['Energy', 'Procedure', 'Followed as', 'Made safe at', 'Proved safe at', 'Proof by', 'Let go again at'],
    },
    documents,
    (stepFile) =>
      energyLines(stepFile).flatMap(({ what, dismissed, followed }) =>
        followed.length === 0
          ? [{ what, state: `Not dealt with here: ${dismissed}`, madeSafe: '', proved: '', by: '', released: '' }]
          : followed.map((one) => ({ what, ...one, state: `${one.state}: ${one.values}` })),
      ),
    (line) => [
      cell(line.what),
      cell(line.state),
      cell(line.madeSafe),
      cell(line.proved),
      cell(line.by),
      cell(line.released),
    ],
  )

const lockTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'locks',
      title: 'Locks',
      says: 'Everything that is locked, and the isolation points that a procedure leaves alone.',
      none: 'Nothing is locked.',
      columns: ['Lock at', 'Procedure', 'On', 'Off'],
    },
    documents,
    lockLines,
    (line) => [
      cell(line.what),
      cell(line.on.length === 0 ? 'no step' : line.on),
      cell(line.off.length === 0 ? 'no step' : line.off),
    ],
  )

const hotWorkTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'hot-work',
      title: 'Hot work and permits',
      says: 'As written, with what was worked out.',
      none: 'None is written. That does not mean that nothing burns.',
      columns: ['What', 'Procedure', 'Step', 'By', 'As written'],
    },
    documents,
    hotWorkLines,
    (line) => [cell(line.what), cell(line.place), cell(line.who), cell(line.says)],
  )

const liftTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'lifts',
      title: 'Lifts, with the margin of the weakest gear',
      says: 'Worked out from the weights and capacities that are written. A lifting plan is for who is qualified and authorised for it.',
      none: 'Nothing is lifted.',
      columns: ['Load', 'Procedure', 'Step', 'As written', 'Worked out', 'Margin'],
    },
    documents,
    liftLines,
    (line) => [
      cell(line.load),
      cell(line.place),
      cell(line.written),
      cell(line.says === '' ? 'nothing was worked out' : line.says),
      line.margin === '' ? strongCell('not known') : cell(line.margin),
    ],
  )

const acceptedTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'accepted',
      title: 'Findings that were accepted, why and by whom',
      says: 'The name is that of the approval of the same role.',
      none: 'Nothing was accepted.',
      columns: ['Finding', 'Procedure', 'Where', 'What it says', 'Because', 'Accepted by'],
    },
    documents,
    (stepFile) =>
      acceptedLines(stepFile).map((line) => ({
        ...line,
        names: stepFile.document.approvals
          .filter(({ role }) => inWords(role) === line.role)
          .map(({ name, date }) => [name ?? '', date ?? ''].filter((part) => part !== '').join(', ')),
      })),
    (line) => [
      cell(line.finding),
      cell(line.where),
      cell(line.messages),
      cell(line.because),
      cell([line.role, ...line.names]),
    ],
    (line) => [line.role],
  )

const findingTable = (documents: readonly AuditedDocument[]): AuditTable =>
  table(
    {
      id: 'findings',
      title: 'Warnings and advice still open',
      says: 'As they stood when each procedure was built.',
      none: 'None when these were built.',
      columns: ['Kind', 'Procedure', 'Finding', 'What it says', 'What to do'],
    },
    documents,
    (stepFile) => stepFile.findings,
    (line) => [cell(line.severity), cell(line.name), cell(line.message), cell(line.advice)],
  )
