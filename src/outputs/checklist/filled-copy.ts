import { digestOfJson, entryAfter } from '../../record/chain.ts'
import { type Entry, type Happening, meaningOf, noMove, type Person } from '../../record/entry.ts'
import { itemContents } from '../../record/item-contents.ts'
import type { Job, JobReading, SignItem, StepItem } from '../../record/job.ts'
import { partId, passTick, thingTicks } from '../../record/job-things.ts'
import { judgeHere } from '../../record/judge-here.ts'
import { makeJob } from '../../record/make-job.ts'
import { moveTo } from '../../record/outlet.ts'
import { emptyState, enter } from '../../record/reckon.ts'
import type { StepFile } from '../../step-file/step-file.ts'
import { allSteps, type ReadingSheet, type StepSheet } from '../../wording/step-file-parts.ts'
import { blankUnit } from './blank-unit.ts'
import { fieldName } from './field-name.ts'
import type { VariantChoice } from './for-variant.ts'
import { foundAt, placesOf } from './lay-out-readings.ts'

/** What stands in the fields of a filled copy, by the names of its blanks. */
export interface FilledFields {
  readonly texts: ReadonlyMap<string, string>
  readonly ticks: ReadonlySet<string>
}

/** As many tries as paper has columns for. */
const COLUMNS = 12

/**
 * A filled copy as the entries of a run, in the order of the work, each reading judged as if it had been typed on the page.
 * Paper knows no more of a time than its date, and of who ticked a step no more than who does it. The same copy gives the
 * same entries.
 */
export function entriesOfCopy(stepFile: StepFile, fields: FilledFields, variant: VariantChoice): readonly Entry[] {
  const job = makeJob(stepFile)
  const steps = new Map(stepFile.phases.flatMap((phase) => allSteps(phase.steps)).map((step) => [step.id, step]))
  const run = digestOfJson([stepFile.digest, [...fields.texts].sort(), [...fields.ticks].sort()]).slice(0, 32)
  const copy: Copy = { job, stepFile, fields, entries: [], state: emptyState(), contents: itemContents(job), run }
  begin(copy, variant)
  for (const item of job.items) {
    const step = item.kind === 'until' ? undefined : steps.get(item.step)
    if (item.kind === 'step' && step !== undefined) workStep(copy, item, step)
    if (item.kind === 'sign') sign(copy, item)
    if (item.kind === 'decide') {
      const index = item.branches.findIndex((_, branch) => isTicked(copy, 'step', item.step, 'way', `${branch + 1}`))
      const branch = item.branches[index]
      if (branch === undefined) continue
      const move = branch.action === 'go' ? moveTo(job, item, branch.target) : noMove
      add(copy, { kind: 'decide', step: item.step, branch: index, says: branch.says, move })
    }
    if (item.kind === 'until' && isTicked(copy, 'phase', item.phase, 'until'))
      add(copy, { kind: 'until', phase: item.phase, met: true, attempt: 1, move: noMove })
  }
  deviations(copy, steps)
  return copy.entries
}

interface Copy {
  readonly job: Job
  readonly stepFile: StepFile
  readonly fields: FilledFields
  readonly entries: Entry[]
  readonly state: ReturnType<typeof emptyState>
  readonly contents: ReturnType<typeof itemContents>
  readonly run: string
}

function add(copy: Copy, happening: Happening, by: readonly Person[] = [], at = ''): void {
  const entry = entryAfter({ run: copy.run, procedure: copy.stepFile.digest }, copy.entries, at, by, happening)
  copy.entries.push(entry)
  enter(copy.state, entry, copy.contents)
}

const textIn = ({ fields }: Copy, ...parts: readonly string[]): string =>
  (fields.texts.get(fieldName(...parts)) ?? '').trim()
const isTicked = ({ fields }: Copy, ...parts: readonly string[]): boolean => fields.ticks.has(fieldName(...parts))

function begin(copy: Copy, variant: VariantChoice): void {
  const { job } = copy
  add(copy, { kind: 'begin', run: copy.run }, [], dateIn(textIn(copy, 'job', 'begun-date')))
  const machine = textIn(copy, 'job', 'machine no')
  if (machine !== '') add(copy, { kind: 'equipment', text: machine })
  for (const { name, values } of job.variants) {
    const value = variant[name] ?? values.find((one) => isTicked(copy, 'copy', name, one))
    if (value !== undefined) add(copy, { kind: 'variant', name, value })
  }
  for (const { id } of job.roles) {
    const name = textIn(copy, 'person', id, 'name')
    const person = { role: id, name, initials: textIn(copy, 'person', id, 'initials') }
    if (name !== '') add(copy, { kind: 'person', person }, [person])
  }
}

/** A day as ISO 8601; what is written in another way is kept in a note, as nobody knows which figure is the month. */
function dateIn(text: string): string {
  return /^\d{4}-\d{2}-\d{2}$/.test(text) ? text : ''
}

function workStep(copy: Copy, item: StepItem, step: StepSheet): void {
  const { job } = copy
  if (isTicked(copy, 'step', step.id, 'not-for-this-job')) {
    add(copy, { kind: 'skip', part: step.id })
    return
  }
  const phase = copy.stepFile.phases.find(({ id }) => id === item.phase)
  const found = foundAt(step) ?? (phase === undefined ? null : foundAt(phase))
  const by = item.by.flatMap((role) => copy.state.people.get(role) ?? [])
  for (const attempt of triesIn(copy, step)) {
    if (attempt > 1) add(copy, { kind: 'again', step: step.id, attempt, move: { ...noMove, clears: [item.id] } }, by)
    for (const sheet of step.readings) {
      const reading = item.readings.find(({ id }) => id === partId(step, sheet.id))
      if (reading === undefined) continue
      for (const [index, place] of placesOf(sheet, found).entries()) {
        const typed = typedIn(copy, step, sheet, reading, place, attempt)
        if (typed === '') continue
        const position = reading.positions[index] ?? null
        const judged = judgeHere(job, copy.state, item, reading, position, typed)
        const { verdict, judgedAs, limit } = judged
        add(
          copy,
          { kind: 'reading', reading: reading.id, position, typed, verdict, judgedAs, limit, correction: null },
          by,
        )
      }
      const instrument = textIn(copy, 'reading', step.id, sheet.id, placesOf(sheet, found)[0] ?? '', 'instrument')
      if (instrument !== '')
        add(copy, { kind: 'identity', for: reading.id, part: 'instrument', text: instrument, correction: null }, by)
    }
    for (const tick of smallTicks(copy, step, attempt)) add(copy, { kind: 'tick', item: tick }, by)
    if (isTicked(copy, 'step', step.id, `${attempt}`)) add(copy, { kind: 'tick', item: item.id }, by)
  }
  waits(copy, item, step)
}

/** Tries of which anything is filled in; the first always counts as one. */
function triesIn({ fields }: Copy, step: StepSheet): readonly number[] {
  const own = [fieldName('step', step.id), fieldName('reading', step.id), fieldName('torque', step.id)]
  const names = [...fields.texts]
    .flatMap(([name, text]) => (text.trim() === '' ? [] : [name]))
    .concat([...fields.ticks])
  const here = names.filter((name) => own.some((start) => name.startsWith(`${start}|`)))
  const all = Array.from({ length: Math.min(step.tries, COLUMNS) }, (_, index) => index + 1)
  const used = (attempt: number) => here.some((name) => name.endsWith(`|${attempt}`) || name.includes(`|${attempt}|`))
  const last = all.findLast(used) ?? 1
  return all.filter((attempt) => attempt <= last)
}

/** With its unit, where only a figure was written beside the printed one. */
function typedIn(
  copy: Copy,
  step: StepSheet,
  sheet: ReadingSheet,
  reading: JobReading,
  place: string,
  attempt: number,
): string {
  const blank = ['reading', step.id, sheet.id, place, `${attempt}`]
  if (reading.kind === 'check') {
    const answers = [...reading.passes, ...reading.fails]
    return answers.find((_, index) => isTicked(copy, ...blank, `${index + 1}`)) ?? ''
  }
  const typed = textIn(copy, ...blank).replace(',', '.')
  const { unit } = blankUnit(copy.stepFile, sheet)
  return typed === '' || unit === '' || /\p{L}|%/u.test(typed) ? typed : `${typed} ${unit}`
}

function smallTicks(copy: Copy, step: StepSheet, attempt: number): readonly string[] {
  const passes = step.torques.flatMap((torque) =>
    torque.passes.flatMap((_, index) =>
      isTicked(copy, 'torque', step.id, torque.id, 'pass', `${index + 1}`, `${attempt}`)
        ? [passTick(step, torque, index)]
        : [],
    ),
  )
  if (attempt > 1) return passes
  const inPrint = ['Lock on', 'Put on', 'Off', 'Fit new', 'Back on', 'Snug', 'Take off', 'Lock off']
  const things = inPrint.flatMap((verb) => thingTicks(step).filter((thing) => thing.verb === verb))
  return [
    ...passes,
    ...things.flatMap(({ id }, index) => (isTicked(copy, 'step', step.id, 'counted', `${index + 1}`) ? [id] : [])),
  ]
}

/** A wait that was written down with both times is settled, with the times as written. */
function waits(copy: Copy, item: StepItem, step: StepSheet): void {
  for (const [index, says] of step.waits.entries()) {
    const at = (what: string) => textIn(copy, 'step', step.id, 'wait', `${index + 1}`, what)
    const wait = item.waits[index]
    if (wait === undefined || at('from') === '' || at('to') === '') continue
    const times = `${at('from-date')} ${at('from')} to ${at('to-date')} ${at('to')}`.replace(/ +/g, ' ').trim()
    add(copy, {
      kind: 'deviation',
      step: step.id,
      wait: wait.id,
      text: `${says}: ${times}`,
      because: 'Times as written in the filled copy.',
    })
  }
}

function sign(copy: Copy, item: SignItem): void {
  const inHold = (what: string) => (attempt: number) => textIn(copy, 'hold', item.hold, `${attempt}`, what)
  const waivedBy = textIn(copy, 'hold', item.hold, 'waived-by')
  if (waivedBy !== '') {
    add(copy, { kind: 'waive', hold: item.hold }, [{ role: item.role, name: waivedBy, initials: '' }])
    return
  }
  const attempt = [4, 3, 2, 1].find((one) => inHold('name')(one) !== '' || inHold('signature')(one) !== '')
  if (attempt === undefined) return
  const [date, time] = [inHold('date')(attempt), inHold('time')(attempt)]
  const known = copy.state.people.get(item.role)
  const name = inHold('name')(attempt) || inHold('signature')(attempt)
  const signer = known?.name === name ? known : { role: item.role, name, initials: '' }
  add(copy, { kind: 'sign', hold: item.hold, meaning: meaningOf[item.holdKind] }, [signer], dateIn(date))
  const written = [date, time].filter((part) => part !== '').join(' ')
  if (written !== '')
    add(copy, { kind: 'note', step: item.step, text: `${item.number} signed: ${written}, as written.` })
}

const DEVIATION_ROWS = 5

function deviations(copy: Copy, steps: ReadonlyMap<string, StepSheet>): void {
  for (let row = 1; row <= DEVIATION_ROWS; row += 1) {
    const [number = '', text = '', allowedBy = '', initials = ''] = [1, 2, 3, 4].map((column) =>
      textIn(copy, 'deviation', `${row}`, `${column}`),
    )
    if (text === '') continue
    const step = [...steps.values()].find((one) => one.number === number)
    const because = [
      number !== '' && step === undefined ? `step ${number}` : '',
      allowedBy === '' ? '' : `allowed by ${allowedBy}`,
      initials,
    ]
    add(copy, {
      kind: 'deviation',
      step: step?.id ?? null,
      wait: null,
      text,
      because: because.filter(Boolean).join(', '),
    })
  }
}

/** Where what was ticked beside a reading is not what its limit says. */
export function ticksAgainstLimits(
  stepFile: StepFile,
  fields: FilledFields,
  entries: readonly Entry[],
): readonly string[] {
  const steps = stepFile.phases.flatMap((phase) => allSteps(phase.steps))
  return steps.flatMap((step) =>
    step.readings.flatMap((sheet) => {
      const judged = entries.filter((entry) => entry.kind === 'reading' && entry.reading === partId(step, sheet.id))
      return judged.flatMap((entry) => {
        if (entry.kind !== 'reading') return []
        const attempt =
          1 + judged.filter((other) => other.kind === 'reading' && other.position === entry.position).indexOf(entry)
        const name = (said: string) => fieldName('reading', step.id, sheet.id, entry.position ?? '', `${attempt}`, said)
        const isOut = ['low', 'high', 'out'].includes(entry.verdict)
        if (isOut && fields.ticks.has(name('in')))
          return [`${step.number}: ${entry.typed} is ticked as in limit, and is out (${entry.limit}).`]
        if (entry.verdict === 'in' && fields.ticks.has(name('out')))
          return [`${step.number}: ${entry.typed} is ticked as out of limit, and is in (${entry.limit}).`]
        return []
      })
    }),
  )
}
