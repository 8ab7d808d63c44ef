import { compare, rational } from '../../quantities/rational.ts'
import { handlingCaution } from '../../trade/cautions.ts'
import { indexVerdict } from '../../trade/handling/recommended-weight.ts'
import { type HandleStudy, type ReachedLift, studyHandle } from '../loads/handle-study.ts'
import { loadBlocks } from '../loads/load-data.ts'
import type { Step } from '../procedure.ts'
import type { WorkedFigure, Working } from '../working.ts'
import { shown, shownNumber, wordFigure, workedFigure } from './worked-figures.ts'

/** What people may lift by hand in a step, by the revised NIOSH equation; only where reach and heights are given. */
export function workOutHandling(step: Step): readonly Working[] {
  return loadBlocks(step, 'handle').flatMap((block) => {
    const study = studyHandle(block)
    return study.weight === null || study.reach === null
      ? []
      : [workingOf({ ...study, weight: study.weight, reach: study.reach })]
  })
}

type ReachedHandling = HandleStudy & {
  readonly weight: NonNullable<HandleStudy['weight']>
  readonly reach: ReachedLift
}

function workingOf(study: ReachedHandling): Working {
  const { block, people } = study
  return {
    key: 'handle',
    of: block.name,
    says: saysOf(study),
    figures: figuresOf(study),
    formula:
      people === 1
        ? 'RWL = LC × HM × VM × DM × AM × FM × CM; LI = load/RWL'
        : 'RWL = LC × HM × VM × DM × AM × FM × CM; together = people × RWL × team share; index = load/together',
    lines: linesOf(study),
    source: [
      'Applications Manual for the Revised NIOSH Lifting Equation, DHHS (NIOSH) 94-110, rev. 9/2021, section 1.3',
      ...(people > 1 ? ['lifting together: HSE L23, team handling, from memory'] : []),
    ].join('; '),
    caution: handlingCaution,
    at: block.at,
  }
}

function saysOf({ weight, people, reach }: ReachedHandling): string {
  const may = (value: typeof reach.limit) => shown(value, weight.unit, 3, 'down')
  if (reach.index === null)
    return 'The equation allows no weight at all here: reach, height, twist or pace is beyond what it knows.'
  const who = people === 1 ? 'One person may lift' : `${people} people may lift`
  const enough =
    reach.needed === null
      ? 'Four people are not enough.'
      : reach.needed <= people
        ? ''
        : `${reach.needed} people are needed.`
  return [`${who} ${may(reach.teamLimit)} here; lifting index ${shownNumber(reach.index, 3, 'up')}.`, enough]
    .filter(Boolean)
    .join(' ')
}

function figuresOf({ weight, reach }: ReachedHandling): readonly WorkedFigure[] {
  const mass = (name: string, value: typeof reach.limit) =>
    workedFigure({ name, kind: 'mass', unit: weight.unit, value, digits: 4, rounding: 'down' })
  return [
    mass('recommended-weight', reach.limit),
    mass('team-limit', reach.teamLimit),
    ...(reach.index
      ? [
          workedFigure({ name: 'lifting-index', kind: 'number', unit: '', value: reach.index, rounding: 'up' }),
          wordFigure('verdict', indexVerdict(reach.index)),
        ]
      : []),
    ...(reach.needed === null
      ? []
      : [workedFigure({ name: 'people-needed', kind: 'number', unit: '', value: rational(reach.needed) })]),
    ...multipliersOf(reach).map(([name, value]) =>
      workedFigure({ name, kind: 'number', unit: '', value, digits: 4, rounding: 'down' }),
    ),
  ]
}

function multipliersOf({ multipliers }: ReachedLift) {
  const { hm, vm, dm, am, fm, cm } = multipliers
  return [
    ['HM', hm],
    ['VM', vm],
    ['DM', dm],
    ['AM', am],
    ['FM', fm],
    ['CM', cm],
  ] as const
}

function linesOf({ weight, people, reach }: ReachedHandling): readonly string[] {
  const inch = reach.system === 'inch'
  const parts = multipliersOf(reach).map(([name, value]) => `${name} ${shownNumber(value, 3)}`)
  const may = shown(reach.limit, weight.unit, 3, 'down')
  return [
    `Multipliers by the formula, ${inch ? 'inch' : 'metric'} form, LC ${inch ? '51 lb' : '23 kg'}; the harder end of the lift is its ${reach.end}.`,
    ...reach.taken,
    `${parts.join(', ')}: one person ${may}`,
    ...(people > 1
      ? [
          `${people} people: ${people} × ${may} × ${people === 2 ? '2/3' : '1/2'} = ${shown(reach.teamLimit, weight.unit, 3, 'down')}`,
          'The equation itself is not made for people lifting together.',
        ]
      : []),
    ...(compare(weight.most, weight.nominal) === 0
      ? []
      : [`Weight ${weight.typed}: at most ${shown(weight.most, weight.unit, 4, 'up')}`]),
    ...(reach.index
      ? [
          `${shown(weight.most, weight.unit, 4, 'up')}/${shown(reach.teamLimit, weight.unit, 3, 'down')} = ${shownNumber(reach.index, 3, 'up')}: ${indexVerdict(reach.index)}`,
        ]
      : []),
  ]
}
