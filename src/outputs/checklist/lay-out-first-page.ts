import type { StepFile } from '../../step-file/step-file.ts'
import { holdLabels, holdWord } from '../../wording/hold-text.ts'
import { claimsInWords, inWords } from '../../wording/state-text.ts'
import { allSteps } from '../../wording/step-file-parts.ts'
import { whatCanKill } from '../../wording/what-can-kill.ts'
import { fieldName } from './field-name.ts'
import type { VariantChoice } from './for-variant.ts'
import type { FirstPage } from './sheet.ts'

export function firstPage(stepFile: StepFile, variant: VariantChoice = {}): FirstPage {
  const page = firstPageParts(stepFile, variant)
  return { ...page, runsOver: roughHeight(page) > roomOfPage }
}

/** In millimetres, for tables of ordinary rows on either paper. The template cannot ask itself: where it breaks would change the answer. */
const roomOfPage = 222

function roughHeight({ emergency, canKill, holds, locks, signers }: Omit<FirstPage, 'runsOver'>): number {
  const lines = [
    42,
    19 + emergency.length * 5.5,
    12 + canKill.length * 12,
    12 + holds.length * 7,
    12 + Math.max(locks.length + 2, 4) * 7.5,
    14 + Math.max(signers.length + 2, 5) * 8.6,
  ]
  return lines.reduce((sum, height) => sum + height, 0)
}

function firstPageParts(stepFile: StepFile, variant: VariantChoice): Omit<FirstPage, 'runsOver'> {
  const { document, machine } = stepFile
  const labels = holdLabels(stepFile)
  const kill = whatCanKill(stepFile)
  const positions = positionsOf(stepFile)
  const steps = new Set(stepFile.phases.flatMap((phase) => allSteps(phase.steps)).map(({ id }) => id))
  const isOpen = ({ name }: { readonly name: string }) => variant[name] === undefined
  const fact = (label: string, text: string | null) => (text === null || text === '' ? [] : [{ label, text }])
  return {
    facts: [
      ...fact('machine', machine?.name ?? null),
      ...fact('site', document.site),
      ...fact('dated', document.date),
      ...fact('replaces', document.supersedes),
      ...fact('review by', document.reviewBy),
      ...fact('written by', document.author),
    ],
    serials: machine?.serials ?? [],
    positions,
    positionWord: positions.every((label) => sideWord.test(label)) ? 'side' : 'position',
    variants: document.variants.filter(isOpen).map(({ name, values }) => ({
      name: inWords(name),
      values: values.map(inWords),
      fields: values.map((value) => fieldName('copy', name, value)),
    })),
    chosen: Object.entries(variant).map(([name, value]) => ({ label: inWords(name), text: inWords(value) })),
    emergency: stepFile.emergency.map((line) => ({ label: inWords(line.name), text: line.says })),
    canKill: kill.lines.map((line) => ({
      word: line.signalWord?.toUpperCase() ?? null,
      what: line.what,
      held: line.held,
      proved: line.proved,
      signed: line.provedBySignature,
    })),
    moreHazards: kill.more,
    holds: stepFile.holds
      .filter(({ step }) => steps.has(step))
      .map((hold) => ({
        label: labels.get(hold.hold) ?? '',
        word: holdWord(hold.kind),
        // The whole sentence stands on its band.
        says: hold.proves.length === 0 ? hold.says : claimsInWords(stepFile, hold.proves),
        at: hold.number,
        step: hold.step,
        position: hold.position,
        role: inWords(hold.role),
      })),
    locks: lockPoints(stepFile),
    signers: stepFile.roles.map((role) => ({
      role: inWords(role.id),
      field: fieldName('person', role.id),
      note: role.differentFrom.length === 0 ? '' : `not ${role.differentFrom.map(inWords).join(', ')}`,
    })),
  }
}

/** Positions that a copy may be for: of `each`. The pairs and rows of a table are all done in one copy. */
const sideWord = /\b(?:left|right|front|rear|upper|lower|inner|outer|top|bottom|near|far)\b/i

function positionsOf({ phases }: StepFile): readonly string[] {
  const labels = phases.flatMap(({ position }) =>
    position?.values.every(({ name }) => name === 'position') ? [position.label] : [],
  )
  return [...new Set(labels)]
}

/** Where locks go: the points that steps lock, named and placed by the machine file where it knows them. */
function lockPoints(stepFile: StepFile): readonly string[] {
  const steps = stepFile.phases.flatMap((phase) => allSteps(phase.steps))
  const ids = [...new Set(steps.flatMap((step) => step.locks.map((lock) => lock.id)))]
  return ids.map((id) => {
    const point = stepFile.machine?.isolationPoints.find((candidate) => candidate.id === id)
    if (!point) return inWords(id)
    return point.where === null ? point.what : `${point.what}, ${point.where}`
  })
}
