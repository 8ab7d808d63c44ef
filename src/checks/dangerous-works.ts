import type { Step } from '../model/procedure.ts'
import { convertValue } from '../quantities/convert.ts'
import { parseLimit } from '../quantities/parse-limit.ts'
import { compare, rational } from '../quantities/rational.ts'
import { entryOf, listIn, partIn, textIn } from './entry-data.ts'

/** What a step does, and the classes of hazard that come with it. */
interface DangerousWork {
  /** As it is told after "Step 3.2": "lifts a load". */
  readonly says: string
  /** Ids of classes. */
  readonly brings: (step: Step) => readonly string[]
  readonly isDone: (step: Step) => boolean
}

/** Guideline figure of the HSE guide L23 for one man, close to the body at knuckle height, from memory. Less is told by the sums of lifting by hand. */
const HEAVY = { value: rational(25), unit: 'kg' }

/** Common practice; each kind once a document. */
export const dangerousWorks: readonly DangerousWork[] = [
  { says: 'lifts a load', isDone: (step) => entryOf(step, 'lift') !== undefined, brings: () => ['suspended-load'] },
  { says: 'rests a load on a jack', isDone: isJacked, brings: () => ['raised-part'] },
  {
    says: 'works with flame, arc or sparks',
    isDone: (step) => entryOf(step, 'hot-work') !== undefined,
    brings: hotWorkBrings,
  },
  { says: 'carries a heavy part by hand', isDone: isHeavy, brings: () => ['heavy-handling'] },
  {
    says: 'takes a guard off',
    isDone: ({ removes }) => removes.some(({ id }) => /(?:^|-)guards?(?:-|$)/.test(id)),
    brings: () => ['rotating-shaft'],
  },
  told(
    'opens something that held oil under pressure',
    'oil-pressure',
    /\b(?:bleed|vent|crack|disconnect|open|undo|loosen|take off)\b[^.]{0,60}\b(?:hydraulic|accumulator|pressure (?:line|hose)|brake line|steering line)\b/i,
  ),
  told(
    'fills or empties a tyre or vessel',
    'air-pressure',
    /\b(?:inflate|deflate|pressuri[sz]e|blow down)\b[^.]{0,30}\b(?:tyres?|receiver|air tank|vessel)\b|\bfill (?:the |both )?tyres?\b/i,
  ),
  told(
    'strikes steel',
    'flying-parts',
    /\b(?:hammer|sledge|knock|strike)\b[^.]{0,40}\b(?:out|in|home|off|pins?|wedges?|hammer|drift)\b|\bdrive (?:the |both |a )?(?:\w+ )?(?:pins?|wedges?|keys?|cups?|bush(?:es)?) (?:out|in|home)\b/i,
  ),
  told('grinds or chips', 'flying-parts noise', /\b(?:grind|chip|needle[- ]?gun|blast)\b(?! the numbers)/i),
  told(
    'uses a solvent or an acid',
    'harmful-substance',
    /\b(?:solvent|degreaser|thinner|acid|caustic|epoxy|isocyanate|anaerobic)\b/i,
  ),
  told('works with something very cold', 'deep-cold', /\b(?:liquid nitrogen|dry ice)\b/i),
  told(
    'heats a part',
    'hot-surface',
    /\bheat (?:the |a |both |it )?[^.]{0,40}\b(?:bearing|bush|hub|ring|gear|coupling|oven|oil bath|induction)\b|\binduction heater\b/i,
  ),
  told('tests with voltage', 'live-parts', /\b(?:megger|insulation tester|high[- ]potential|hi-?pot)\b/i),
  told(
    'works at a battery',
    'battery',
    /\b(?:connect|disconnect|charge|lift out|jump)\b[^.]{0,30}\bbatter(?:y|ies)\b(?! isolator)/i,
  ),
  told(
    'sends somebody up',
    'fall-from-height',
    /\b(?:ladder|scaffold|work platform|cherry picker|on the roof|climb (?:up|on))\b/i,
  ),
  told('stirs up dust', 'rock-dust', /\b(?:sweep|blow|brush|beat)\b[^.]{0,40}\bdust\b/i),
  told(
    'moves a machine',
    'moving-vehicle',
    /\b(?:drive|reverse|back|tram)\b[^.]{0,20}\b(?:truck|loader|forklift|grader|dozer|excavator)\b/i,
  ),
  told(
    'works at a spring or a tensioned belt',
    'stored-spring',
    /\b(?:release|relax|compress|unload)\b[^.]{0,30}\b(?:springs?|take-up|tension)\b/i,
  ),
  told('handles fuel', 'flammable-vapour', /\b(?:drain|fill|empty|open|pump)\b[^.]{0,30}\b(?:fuel|diesel|petrol)\b/i),
  told('works at a strong magnet', 'strong-magnet', /\b(?:tramp|overband|lifting|suspension) magnets?\b/i),
]

function told(says: string, classes: string, words: RegExp): DangerousWork {
  return {
    says,
    brings: () => classes.split(' '),
    isDone: ({ text, acts }) => [text, ...acts.map((act) => act.text)].some(({ plain }) => words.test(plain)),
  }
}

function isJacked(step: Step): boolean {
  const data = entryOf(step, 'support')?.data
  const loads = data === undefined ? [] : listIn({ all: data }, 'all')
  return loads.some((load) => listIn(partIn(data, load), 'on').some((id) => /\bjacks?\b/i.test(id)))
}

function isHeavy(step: Step): boolean {
  const data = entryOf(step, 'handle')?.data
  const loads = data === undefined ? [] : listIn({ all: data }, 'all')
  return loads.some((load) => {
    const limit = parseLimit(textIn(partIn(data, load), 'load') ?? '')
    const bound = limit.ok ? (limit.value.upper ?? limit.value.lower) : null
    if (!limit.ok || bound === null) return false
    const mass = convertValue(limit.value.aim ?? bound.value, limit.value.unit, HEAVY.unit)
    return mass.ok && compare(mass.value, HEAVY.value) >= 0
  })
}

function hotWorkBrings(step: Step): readonly string[] {
  const method = textIn(entryOf(step, 'hot-work')?.data, 'method') ?? ''
  return [
    'sparks-and-flame',
    ...(/\b(?:arc|weld|plasma|goug)/i.test(method) ? ['arc-light'] : []),
    ...(/\b(?:weld|cut|goug|braz|plasma)/i.test(method) ? ['harmful-substance'] : []),
  ]
}
