import { redo, undo } from '@codemirror/commands'
import { Prec } from '@codemirror/state'
import { keymap } from '@codemirror/view'
import type { Form } from '../../../writing/forms/form.ts'
import type { CheckAnswer, ReadAnswer, ShownFinding } from '../wire.ts'
import { fetchJson, withFile } from './ask.ts'
import { startChecking } from './checking.ts'
import { type EditorHooks, makeEditor, stateFor } from './editor.ts'
import { button, byId, make, openDialog, say, withCode } from './elements.ts'
import { explain } from './explain.ts'
import { startFigures } from './figures.ts'
import { type FindingHooks, findingBody, kindWords } from './finding-acts.ts'
import { type Flaw, flawsIn, pointTo, showFlaws } from './flaws.ts'
import { byForm, startForm } from './form/form-panel.ts'
import { openHere, putIn } from './form/put-in.ts'
import { showHelp } from './help.ts'
import { makeMargin } from './margin.ts'
import { showNew } from './new-procedure.ts'
import { listenForNews } from './news.ts'
import { markStep, showPath } from './path-view.ts'
import { startPreview } from './preview.ts'
import { showProcedures } from './procedures.ts'
import { startSaving } from './saving.ts'
import { goTo, placeNow, type Session, stepAtCursor, textOf } from './session.ts'
import { startSheet } from './sheet-view.ts'
import { type Station, showFirstStory, showStory } from './story.ts'
import { suggestions } from './suggestions.ts'
import { startTabs } from './tabs.ts'
import { showWrong } from './wrong-list.ts'

const nonce = document.body.dataset.nonce ?? ''

const commands = Prec.high(
  keymap.of([
    { key: 'Mod-s', run: () => run(() => void saving.now()) },
    { key: 'Mod-Enter', run: () => run(() => void openHere(session, showForm)) },
    { key: 'F8', run: () => run(() => walkFindings(1)) },
    { key: 'Shift-F8', run: () => run(() => walkFindings(-1)) },
  ]),
)

const hooks: EditorHooks = {
  changed: (update) => {
    if (update.docChanged) {
      checking.typed(update.changes)
      saving.typed()
      form.followed(
        update.changes,
        update.transactions.every((one) => one.isUserEvent(byForm)),
      )
    }
    if (update.docChanged || update.viewportChanged || update.geometryChanged) margin.refresh()
    if (update.selectionSet || update.docChanged) followCursor()
  },
  markPressed: (lineStart) => {
    margin.openAt(lineStart)
    const line = session.view.state.doc.lineAt(lineStart)
    const flaw = flawsIn(session.view).find(({ from }) => from >= line.from && from <= line.to)
    if (flaw !== undefined) tellWhereNoMargin(flaw.finding)
  },
  more: [commands, suggestions(() => session.file)],
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
const form = startForm(session)
const preview = startPreview(session)
const sheet = startSheet(session)
const pickCheck = startTabs(document.querySelector('.below .tabs') ?? document.body, (id) => {
  followCursor()
  if (id === 'tab-path') void followPath()
  if (id === 'tab-story') showFirstStory(session.answer?.findings ?? [], goToStation)
})
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
  if (!byId('panel-path').hidden) void followPath()
  preview.refresh(answer)
  sheet.refresh(answer)
  followCursor()
}

function showForm(next: Form): void {
  showView('seen')
  form.show(next)
}

function lost(isLost: boolean): void {
  document.body.classList.toggle('is-lost', isLost)
  if (isLost) tell('The desk was closed. What you typed stands here; open the desk again.', true)
}

async function followPath(): Promise<void> {
  await showPath(session.file, (start) => goTo(session, placeNow(session, start, start).from))
  markStep(stepAtCursor(session))
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
  tellWhereNoMargin(finding)
}

/** In a narrow window there is no margin: what it would say stands in a window of its own. */
function tellWhereNoMargin(finding: ShownFinding): void {
  if (document.querySelector<HTMLElement>('.margin')?.offsetParent != null) return
  const closing = (act: (finding: ShownFinding) => void) => (one: ShownFinding) => {
    dialog.close()
    act(one)
  }
  const dialog = openDialog(
    kindWords[finding.severity],
    make('p', { class: 'story-what' }, ...withCode(finding.message)),
    ...findingBody(finding, {
      ...findingHooks,
      mend: closing(findingHooks.mend),
      tellStory: closing(findingHooks.tellStory),
    }),
  )
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

/** Opens another procedure. What could not be saved is never left behind without asking. */
async function open(file: string): Promise<void> {
  await saving.now()
  if (session.file === '' || textOf(session) === session.base) return openNow(file)
  const dialog = openDialog(
    'Not saved',
    make('p', {}, 'What you typed here could not be saved. If you open another procedure now, it is lost.'),
    make(
      'div',
      { class: 'buttons' },
      button('Stay here', () => dialog.close(), 'tool is-main'),
      button('Open the other one, and lose what I typed', () => {
        dialog.close()
        void openNow(file)
      }),
    ),
  )
}

async function openNow(file: string): Promise<void> {
  const read = await fetchJson<ReadAnswer>(withFile('read', file))
  if (read === null) return tell(`${file} cannot be opened.`, true)
  session.file = ''
  form.close()
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

async function showList(): Promise<void> {
  // A file that is renamed must hold all that was typed.
  await saving.now()
  await showProcedures(session.file, (file) => void open(file), makeNew)
}

function makeNew(): void {
  void showNew((file) => void open(file))
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

byId('list-open').addEventListener('click', () => void showList())
byId('put-in').addEventListener('click', () => void putIn(session, showForm))
byId('undo').addEventListener('click', () => undo(session.view))
byId('redo').addEventListener('click', () => redo(session.view))
byId('print').addEventListener('click', () => void print())
byId('help').addEventListener('click', showHelp)
for (const press of document.querySelectorAll<HTMLElement>('.views button'))
  press.addEventListener('click', () => showView(press.dataset.view as 'text' | 'seen' | 'checks'))
addEventListener('blur', () => void saving.now())
addEventListener('beforeunload', (event) => {
  if (textOf(session) !== session.base) event.preventDefault()
})

listenForNews((news) => {
  for (const one of news) saving.heard(one)
  if (news.some(({ kind }) => kind === 'library')) checking.again()
})

const asked = decodeURIComponent(location.hash.slice(1))
if (asked !== '') void open(asked)
else void showList()
