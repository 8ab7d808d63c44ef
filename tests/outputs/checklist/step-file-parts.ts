import type { StepFile } from '../../../src/step-file/step-file.ts'
import type {
  ConsequenceSheet,
  HazardSheet,
  HoldSheet,
  PhaseSheet,
  ReadingSheet,
  StateSheet,
  StepSheet,
  TorqueSheet,
} from '../../../src/wording/step-file-parts.ts'

/** Step files by hand, for tests: every part with nothing in it but what is asked for. */

export const stepText = (plain: string): StepSheet['text'] => ({
  markdown: plain,
  plain,
  inlines: [{ kind: 'text', text: plain }],
})

export const paragraph = (text: string): StepSheet['details'][number] => ({
  kind: 'paragraph',
  children: [{ kind: 'text', text }],
})

export const bullets = (...lines: readonly string[]): StepSheet['details'][number] => ({
  kind: 'list',
  ordered: false,
  items: lines.map((line) => [paragraph(line)]),
})

export const claim = (state: string, ...values: string[]) => ({ state, values })
export const counted = (id: string, count: string | null = null) => ({ id, count })
export const entry = (key: string, label: string, ...lines: (string | [string, string])[]) => ({
  key,
  label,
  lines: lines.map((line) =>
    typeof line === 'string' ? { name: null, text: line } : { name: line[0], text: line[1] },
  ),
  data: '',
})

export const step = (id: string, number: string, text: string, parts: Partial<StepSheet> = {}): StepSheet => ({
  id,
  baseId: id.replace(/@[^/]+/, ''),
  number,
  text: stepText(text),
  by: ['fitter'],
  acts: [],
  details: [],
  where: [],
  enters: [],
  clear: [],
  clearedBy: [],
  needs: [],
  exposed: [],
  keeps: [],
  permits: [],
  sets: [],
  proves: [],
  hazards: [],
  ppe: [],
  uses: [],
  only: null,
  when: null,
  holds: [],
  torques: [],
  readings: [],
  consequences: [],
  decide: null,
  waits: [],
  waiting: [],
  takes: null,
  removes: [],
  refits: [],
  locks: [],
  unlocks: [],
  putsOn: [],
  takesOff: [],
  snug: [],
  fits: [],
  redoes: [],
  spoils: [],
  workings: [],
  tries: 1,
  undoes: null,
  entries: [],
  steps: [],
  statesBefore: {},
  statesAfter: {},
  ...parts,
})

/** A step that says nothing of the states stands in those that its phase begins with. */
export const phase = (id: string, number: string, title: string, parts: Partial<PhaseSheet> = {}): PhaseSheet => {
  const made = emptyPhase(id, number, title, parts)
  return {
    ...made,
    steps: made.steps.map((one) => ({ ...one, statesBefore: { ...made.statesBefore, ...one.statesBefore } })),
  }
}

const emptyPhase = (id: string, number: string, title: string, parts: Partial<PhaseSheet>): PhaseSheet => ({
  id,
  baseId: id.replace(/@.*/, ''),
  number,
  title,
  kind: 'phase',
  under: null,
  position: null,
  until: null,
  prose: [],
  by: ['fitter'],
  where: [{ role: null, zones: ['out'] }],
  clear: [],
  clearedBy: [],
  needs: [],
  exposed: [],
  keeps: [],
  permits: [],
  ppe: [],
  hazards: [],
  only: null,
  when: null,
  together: false,
  takes: null,
  reverseOf: null,
  entries: [],
  steps: [],
  statesBefore: {},
  statesAfter: {},
  ...parts,
})

/** What follows out of limit; `last` is what follows after the last try. */
export const consequence = (
  parts: Partial<ConsequenceSheet>,
  last: ConsequenceSheet | null = null,
): ConsequenceSheet => ({
  on: 'out',
  reading: null,
  action: 'stop',
  targets: [],
  atMost: null,
  then: last,
  reason: null,
  leave: [],
  ...parts,
})

export const hold = (stepId: string, role: string, says: string, parts: Partial<HoldSheet> = {}): HoldSheet => ({
  id: `${stepId}#${role}`,
  kind: 'hold',
  timing: 'after',
  role,
  says,
  ...parts,
})

export const limit = (text: string, unit: string, form = 'range'): NonNullable<ReadingSheet['limit']> => ({
  typed: text,
  text,
  kind: 'length',
  form,
  lower: null,
  upper: { exact: '1/5', inclusive: true },
  aim: null,
  unit,
  ucum: unit,
  inUnits: [{ system: 'metric', unit, text }],
  pair: null,
})

export const reading = (name: string, kind: ReadingSheet['kind'], parts: Partial<ReadingSheet> = {}): ReadingSheet => ({
  id: name,
  name,
  kind,
  asks: null,
  limit: null,
  unit: null,
  positions: [],
  instrument: null,
  instance: null,
  expression: null,
  passes: [],
  fails: [],
  given: null,
  facts: [],
  only: null,
  ...parts,
})

export const torque = (id: string, text: string, parts: Partial<TorqueSheet> = {}): TorqueSheet => ({
  id,
  name: id,
  limit: { ...limit(text, 'N·m'), kind: 'torque' },
  fastener: null,
  lubrication: null,
  pattern: null,
  passes: [],
  tool: null,
  only: null,
  facts: [],
  ...parts,
})

export const state = (id: string, values: readonly string[], parts: Partial<StateSheet> = {}): StateSheet => {
  const [name = id, position = null] = id.split('.')
  const first = values[0] ?? ''
  return {
    id,
    name,
    position,
    values,
    start: first,
    end: [first],
    energy: null,
    safe: [],
    provedBy: [],
    lapses: null,
    heldBy: [],
    implied: false,
    ...parts,
  }
}

export const hazard = (
  id: string,
  signalWord: HazardSheet['signalWord'],
  says: { hazard: string; consequence: string; avoid: string; controls?: readonly string[]; energyClass?: string },
): HazardSheet => ({
  id,
  hazard: says.hazard,
  consequence: says.consequence,
  avoid: says.avoid,
  severity: signalWord === 'danger' || signalWord === 'warning' ? 'death' : 'minor-injury',
  likelihood: signalWord === 'danger' ? 'will' : 'could',
  signalWord,
  energyClass: says.energyClass ?? null,
  controls: says.controls ?? [],
})

export const resource = (
  id: string,
  name: string,
  parts: Partial<StepFile['resources']['tools'][number]> = {},
): StepFile['resources']['tools'][number] => ({
  id,
  name,
  number: null,
  quantity: null,
  replace: null,
  facts: [],
  isInstrument: false,
  usedIn: [],
  listed: true,
  ...parts,
})

export const stepFile = (parts: Partial<StepFile> = {}): StepFile => ({
  format: 'witnessmark-step-file',
  formatVersion: '1.0',
  digest: `sha256:${'3f9a12c7'.repeat(8)}`,
  file: 'procedures/sample/sample.md',
  document: {
    number: 'KRQ-XX-001',
    title: 'Sample',
    revision: 'A',
    status: 'issued',
    date: '2026-03-02',
    site: null,
    author: null,
    supersedes: null,
    reviewBy: null,
    language: 'en',
    printUnits: ['metric', 'inch'],
    variants: [],
    approvals: [],
  },
  purpose: [],
  roles: [{ id: 'fitter', who: 'heavy-plant fitter', qualifications: ['own lock'], differentFrom: [] }],
  machine: null,
  states: [],
  zones: [],
  never: [],
  hazards: [],
  resources: { tools: [], gear: [], parts: [], consumables: [], ppe: [] },
  tables: [],
  emergency: [],
  prohibit: [],
  entries: [],
  phases: [],
  holds: [],
  schedule: null,
  figures: [],
  graph: { start: '(start)', nodes: [], edges: [] },
  proof: { verdict: 'nothing-to-prove', situations: 0, variants: 0, properties: [], notModelled: [] },
  accepted: [],
  findings: [],
  cautions: ['Local law, site rules and the maker’s instructions come first.'],
  ...parts,
})

/** What the compiler rolls up, near enough for print: one summary a hold, in the order of the job. */
export function summarizeHolds(phases: readonly PhaseSheet[], zones: StepFile['zones']): StepFile['holds'] {
  const found: StepFile['holds'][number][] = []
  for (const one of phases) {
    for (const inner of one.steps) {
      for (const held of inner.holds) {
        found.push({
          hold: held.id,
          step: inner.id,
          number: inner.number,
          position: one.position?.label ?? null,
          kind: held.kind,
          role: held.role,
          says: held.says,
          proves: inner.proves,
          zones: zones
            .filter((zone) => zone.safeWhen.some((safe) => inner.proves.some((proved) => proved.state === safe.state)))
            .map((zone) => zone.id),
          hazards: [],
        })
      }
    }
  }
  const order = phases.flatMap((one) => one.steps.map((inner) => ({ id: inner.id, hazards: inner.hazards })))
  return found.map((summary, index) => {
    const from = order.findIndex((item) => item.id === summary.step) + 1
    const next = found[index + 1]
    const to = next ? order.findIndex((item) => item.id === next.step) + 1 : order.length
    return { ...summary, hazards: order.slice(from, to).flatMap((item) => item.hazards) }
  })
}
