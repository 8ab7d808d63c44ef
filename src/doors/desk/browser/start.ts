import { redo, undo } from '@codemirror/commands'
import { Prec } from '@codemirror/state'
import { keymap } from '@codemirror/view'
import type { CheckAnswer, MadeAnswer, News, ReadAnswer, ShownFinding } from '../wire.ts'
import { ask, fetchJson, withFile } from './ask.ts'
import { startChecking } from './checking.ts'
import { type EditorHooks, makeEditor, stateFor } from './editor.ts'
import { byId, say } from './elements.ts'
import { explain } from './explain.ts'
import { startFigures } from './figures.ts'
import type { FindingHooks } from './finding-acts.ts'
import { type Flaw, flawsIn, pointTo, showFlaws } from './flaws.ts'
import { showHelp } from './help.ts'
import { makeMargin } from './margin.ts'
import { markStep, showPath } from './path-view.ts'
import { startPreview, startSheet } from './preview.ts'
import { askFor, showProcedures } from './procedures.ts'
import { startSaving } from './saving.ts'
import { goTo, placeNow, type Session, stepAtCursor } from './session.ts'
import { type Station, showStory } from './story.ts'
import { startTabs } from './tabs.ts'
import { showWrong } from './wrong-list.ts'

const nonce = document.body.dataset.nonce ?? ''

const commands = Prec.high(
  keymap.of([
    { key: 'Mod-s', run: () => run(() => void saving.now()) },
    { key: 'F8', run: () => run(() => walkFindings(1)) },
    { key: 'Shift-F8', run: () => run(() => walkFindings(-1)) },
  ]),
)

const hooks: EditorHooks = {
  changed: (update) => {
    if (update.docChanged) {
      checking.typed(update.changes)
      saving.typed()
    }
    if (update.docChanged || update.viewportChanged || update.geometryChanged) margin.refresh()
    if (update.selectionSet || update.docChanged) followCursor()
  },
  markPressed: (lineStart) => margin.openAt(lineStart),
  more: [commands],
}

const session: Session = {
  view: makeEditor(byId('text'), nonce, hooks),
  file: '',
  base: '',
  hash: '',
  answer: null,
  since: null,
}
const findingHooks: FindingHooks = {
  mend: (finding) => void mend(finding),
  explain: (name) => void explain(name),
  tellStory: (finding) => {
    showStory(finding, goToStation)
    pickCheck('tab-story')
    showView('checks')
  },
  goTo: (finding) => goTo(session, placeNow(session, finding.start, finding.end).from, false),
}
const margin = makeMargin(session.view, byId('text'), findingHooks)
const saving = startSaving(session)
const checking = startChecking(session, answered, lost)
const preview = startPreview(session)
const sheet = startSheet(session)
const pickCheck = startTabs(document.querySelector('.below .tabs') ?? document.body, () => followCursor())
startTabs(document.querySelector('.seen .tabs') ?? document.body, (id) => sheet.look(id === 'tab-sheet'))
startFigures(session, tell)

function answered(answer: CheckAnswer): void {
  const flaws = answer.findings
    .filter(({ file }) => file === null)
    .map((finding): Flaw => ({ finding, ...placeNow(session, finding.start, finding.end) }))
  showFlaws(session.view, flaws)
  margin.refresh()
  byId('title').textContent = answer.title || session.file
  document.title = `${answer.title || session.file} – desk`
  showWrong(answer, goToFinding)
  showPath(answer, (start) => goTo(session, placeNow(session, start, start).from))
  preview.refresh(answer)
  sheet.refresh(answer)
  followCursor()
}

function lost(isLost: boolean): void {
  document.body.classList.toggle('is-lost', isLost)
  if (isLost) tell('The desk was closed. What you typed stands here; open the desk again.', true)
}

function followCursor(): void {
  const step = stepAtCursor(session)
  preview.show(step)
  sheet.show(step)
  markStep(step)
}

function goToFinding(finding: ShownFinding): void {
  if (finding.file !== null) {
    void explain(finding.name)
    return
  }
  showView('text')
  const { from } = placeNow(session, finding.start, finding.end)
  goTo(session, from)
  margin.open(flawsIn(session.view).find((flaw) => flaw.finding === finding) ?? null)
}

function goToStation(station: Station): void {
  if (station.file !== null) return
  const { from, to } = placeNow(session, station.start, station.end)
  goTo(session, from, false)
  pointTo(session.view, { from, to })
}

function walkFindings(step: 1 | -1): void {
  const flaws = [...flawsIn(session.view)].sort((a, b) => a.from - b.from)
  const { head } = session.view.state.selection.main
  const next = step === 1 ? flaws.find(({ from }) => from > head) : flaws.filter(({ from }) => from < head).at(-1)
  const flaw = next ?? (step === 1 ? flaws[0] : flaws.at(-1))
  if (flaw === undefined) {
    say('Nothing to put right.')
    return
  }
  goTo(session, flaw.from)
  margin.open(flaw)
  say(`${flaw.finding.message} ${flaw.finding.advice}`)
}

/** Makes the change that a finding offers, in the text as it is now; the places of an older answer are never trusted. */
async function mend(asked: ShownFinding): Promise<void> {
  await checking.settled()
  const finding = session.answer?.findings.find(
    (one) => one.name === asked.name && one.message === asked.message && one.edit !== null,
  )
  if (!finding?.edit) {
    say('That is mended already.')
    return
  }
  const changes = finding.edit.changes.map(({ start, end, newText }) => ({ from: start, to: end, insert: newText }))
  session.view.dispatch({ changes, userEvent: 'input.mend' })
  say(`Done: ${finding.edit.title}`)
  session.view.focus()
}

async function open(file: string): Promise<void> {
  await saving.now()
  const read = await fetchJson<ReadAnswer>(withFile('read', file))
  if (read === null) return tell(`${file} cannot be opened.`, true)
  session.file = ''
  preview.clear()
  sheet.clear()
  session.view.setState(stateFor(read.text, nonce, hooks))
  session.file = file
  session.base = read.text
  session.hash = read.hash
  session.answer = null
  session.since = null
  showStory(null, goToStation)
  margin.open(null)
  location.hash = encodeURIComponent(file)
  tell('Saved', false)
  checking.again()
  session.view.focus()
}

function makeNew(): void {
  askFor(
    'New procedure',
    'Say what the job is, as it shall stand on the sheet.',
    [
      { name: 'title', words: 'Title, such as “Dust fan: change the belts”', value: '' },
      { name: 'number', words: 'Number (may be left out for now)', value: '' },
    ],
    'Begin',
    (values) => ask<MadeAnswer>('new', values),
    (file) => void open(file),
  )
}

function tell(words: string, isBad: boolean): void {
  const says = byId('saved')
  says.textContent = words
  says.classList.toggle('is-bad', isBad)
}

async function print(): Promise<void> {
  await saving.now()
  await checking.settled()
  if (session.answer?.page === 'ready') {
    window.open(withFile('sheet.pdf', session.file), '_blank', 'noopener')
    return
  }
  tell('Not to be printed yet: put the errors right first.', true)
  pickCheck('tab-wrong')
}

function showView(view: 'text' | 'seen' | 'checks'): void {
  document.body.dataset.view = view
  for (const press of document.querySelectorAll<HTMLElement>('.views button'))
    press.setAttribute('aria-pressed', String(press.dataset.view === view))
}

function run(act: () => void): true {
  act()
  return true
}

byId('list-open').addEventListener('click', () => void showProcedures(session.file, (file) => void open(file), makeNew))
byId('undo').addEventListener('click', () => undo(session.view))
byId('redo').addEventListener('click', () => redo(session.view))
byId('print').addEventListener('click', () => void print())
byId('help').addEventListener('click', showHelp)
for (const press of document.querySelectorAll<HTMLElement>('.views button'))
  press.addEventListener('click', () => showView(press.dataset.view as 'text' | 'seen' | 'checks'))
addEventListener('blur', () => void saving.now())
addEventListener('beforeunload', (event) => {
  if (session.view.state.doc.toString() !== session.base) event.preventDefault()
})
new EventSource('news').addEventListener('message', ({ data }) => {
  const news = JSON.parse(data) as News
  saving.heard(news)
  if (news.kind === 'library') checking.again()
})

const asked = decodeURIComponent(location.hash.slice(1))
if (asked !== '') void open(asked)
else void showProcedures('', (file) => void open(file), makeNew)
