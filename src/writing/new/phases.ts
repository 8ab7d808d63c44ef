import { identifierFrom } from '../../text/identifier.ts'
import { jobSteps } from './job-steps.ts'
import type { Answers } from './questions.ts'
import type { NewPhase, NewStep } from './skeleton.ts'

/** Prepare, make safe, work, hand back: only what the answers ask for. */
export function phasesOf(answers: Answers): readonly NewPhase[] {
  const isMadeSafe = answers.isolation || answers.pressure
  return [prepare(answers), ...(isMadeSafe ? [makeSafe(answers)] : []), work(answers), handBack(answers)]
}

const hasZone = ({ isolation, pressure, lift }: Answers): boolean => isolation || pressure || lift

function out(answers: Answers): readonly string[] {
  const where = answers.lift ? 'where: { fitter: out, rigger: out }' : 'where: out'
  return ['by: fitter', ...(hasZone(answers) ? [where] : [])]
}

function prepare(answers: Answers): NewPhase {
  const steps: NewStep[] = [
    { says: `Tell the people who run the ${answers.equipment} what is done and how long it takes.`, id: 'tell' },
    { says: 'Read this procedure with everyone who works on the job, and say who does what.', id: 'brief' },
    { says: 'Fetch the tools and look each over; leave what is damaged or out of calibration.', id: 'fetch' },
  ]
  return { title: 'Prepare', id: 'prepare', block: out(answers), steps }
}

function makeSafe(answers: Answers): NewPhase {
  const { isolation, pressure, equipment, machine } = answers
  const lock = machine?.isolationPoints[0] ?? 'isolator-lock'
  const steps: NewStep[] = []
  if (isolation)
    steps.push(
      {
        says: `Stop the ${equipment} and wait until it stands.`,
        id: 'stop',
        block: ['sets: { drive: standing }', 'wait: min ??'],
      },
      {
        says: 'Turn the isolator off, and fit your own lock and tag.',
        id: 'lock',
        block: ['sets: { power: isolated }', `locks: [${lock}]`, ...everybody(answers)],
      },
      {
        says: 'Look that nobody is at the machine, try to start it, then put the switch back to off.',
        id: 'try',
        block: [
          'check: { start-tried: Nothing moves and no lamp lights. }',
          'else: { stop: The isolator does not cut the power. Call the electrician. }',
        ],
      },
    )
  if (pressure)
    steps.push(
      {
        says: 'Let the pressure off at the bleed valve, and stand beside it.',
        id: 'vent',
        block: ['sets: { pressure: vented }'],
      },
      {
        says: 'Read the gauge at the bleed point.',
        id: 'read-pressure',
        block: [
          'measure: { pressure-left: "max ??, with pressure-gauge" }',
          'else: { redo: vent, at-most: 2, then: { stop: The pressure does not come off. } }',
        ],
      },
    )
  const proved = [
    ...(isolation ? ['power: isolated', 'drive: standing'] : []),
    ...(pressure ? ['pressure: vented'] : []),
  ]
  const seen = [
    ...(isolation ? ['the lock on, the start tried and everything standing'] : []),
    ...(pressure ? ['no pressure on the gauge'] : []),
  ]
  steps.push({
    says: 'Show the supervisor that it is safe.',
    id: 'proved',
    block: ['hold:', `  supervisor: I saw ${seen.join(', and ')}.`, `proves: { ${proved.join(', ')} }`],
  })
  return { title: 'Make safe', id: 'make-safe', block: out(answers), steps }
}

/** Everybody who works there fits a lock of his own. */
const everybody = ({ lift }: Answers): readonly string[] => (lift ? ['by: [fitter, rigger]'] : [])

function work(answers: Answers): NewPhase {
  const { positions, isolation, pressure } = answers
  const names = positions.map(identifierFrom)
  const block = [
    ...(names.length > 1 ? [`repeat: { each: [${[...new Set(names)].join(', ')}] }`] : []),
    'by: fitter',
    ...(isolation || pressure ? ['where: work-place'] : hasZone(answers) ? ['where: out'] : []),
  ]
  return { title: titles[answers.kind], id: 'work', block, steps: jobSteps(answers) }
}

const titles: Readonly<Record<Answers['kind'], string>> = {
  inspect: 'Look it over',
  replace: 'Change the part',
  adjust: 'Set it',
  service: 'Clean and lubricate',
}

function handBack(answers: Answers): NewPhase {
  const { isolation, pressure, equipment, machine } = answers
  const lock = machine?.isolationPoints[0] ?? 'isolator-lock'
  const steps: NewStep[] = [
    { says: 'Count the tools, clean up, and look that nobody is at the machine.', id: 'clear' },
    {
      says: 'Have the machine cleared.',
      id: 'cleared',
      block: ['hold:', '  supervisor: I saw the work whole, the tools counted and everybody clear.'],
    },
  ]
  if (pressure)
    steps.push({
      says: 'Close the bleed valve and let the pressure come up.',
      id: 'charge',
      block: ['sets: { pressure: charged }'],
    })
  if (isolation)
    steps.push(
      { says: 'Take your lock off.', id: 'unlock', block: [`unlocks: [${lock}]`, ...everybody(answers)] },
      {
        says: `Turn the isolator on and start the ${equipment}.`,
        id: 'start',
        block: ['sets: { power: live, drive: running }'],
      },
    )
  steps.push({ says: 'Tell the people who run it that it is theirs again.', id: 'tell-done' })
  return { title: 'Hand back', id: 'hand-back', block: out(answers), steps }
}
