import type { Phase, Procedure } from '../model/procedure.ts'
import { parseLimit } from '../quantities/parse-limit.ts'
import type { Limit } from '../quantities/quantity-types.ts'
import type { PlainValue } from '../syntax/block-node.ts'
import type { Place } from '../text/place.ts'
import { entryOf, listIn, partIn, textIn } from './entry-data.ts'
import { doersOf, everyWrittenStep, stepsBelow } from './every-step.ts'
import { wordsOfStep } from './job-words.ts'

/** Hot work of one step, or of all steps of a phase. */
interface HotWork {
  /** As it is told: "Step 3.2", "Phase 3". */
  readonly where: string
  readonly data: PlainValue
  /** Who works with heat or sparks. */
  readonly doers: readonly string[]
  /** Roles that watch for fire, under `hot-work` or under `keep`. */
  readonly watches: readonly string[]
  /** Its words and those of the phase it stands in. */
  readonly words: string
  readonly permits: readonly string[]
  readonly phase: Phase
  readonly at: Place
}

/** All hot work of a document, each once however often it is repeated. */
export function everyHotWork(procedure: Procedure): readonly HotWork[] {
  const ofPhases = procedure.phases.flatMap((phase): readonly HotWork[] => {
    const entry = entryOf(phase, 'hot-work')
    if (entry === undefined) return []
    const doers = [...new Set(stepsBelow(phase.steps).flatMap(doersOf))]
    return [hotWork(`Phase ${phase.number}`, entry.data, doers, phase.keeps, [], phase, entry.at)]
  })
  const ofSteps = everyWrittenStep(procedure).flatMap(({ step, phase }): readonly HotWork[] => {
    const entry = entryOf(step, 'hot-work')
    if (entry === undefined) return []
    const permits = step.permits.map(({ name }) => name)
    const keeps = [...phase.keeps, ...step.keeps]
    return [hotWork(`Step ${step.number}`, entry.data, doersOf(step), keeps, permits, phase, entry.at)]
  })
  return [...ofPhases, ...ofSteps]
}

function hotWork(
  where: string,
  data: PlainValue,
  doers: readonly string[],
  keeps: Phase['keeps'],
  permits: readonly string[],
  phase: Phase,
  at: Place,
): HotWork {
  const watcher = textIn(partIn(data, 'watch'), 'by')
  const kept = keeps.filter(({ name, says }) => /watch|fire/i.test(`${name} ${says ?? ''}`)).flatMap(({ by }) => by)
  const own = textIn(data, 'permit')
  return {
    where,
    data,
    doers,
    watches: [...new Set([...(watcher === null ? [] : [watcher]), ...kept])],
    words: stepsBelow(phase.steps).map(wordsOfStep).join('\n'),
    permits: [...(own === null ? [] : [own]), ...permits, ...phase.permits.map(({ name }) => name)],
    phase,
    at,
  }
}

/** A figure of the hot work as a limit; null where there is none or it cannot be read, which is told elsewhere. */
export function limitOf(data: PlainValue | undefined, key: string): Limit | null {
  const typed = textIn(data, key)
  if (typed === null) return null
  const limit = parseLimit(typed)
  return limit.ok ? limit.value : null
}

/** What stands under a key, as typed, joined. */
export function saidUnder(data: PlainValue, ...keys: readonly string[]): string {
  return keys.flatMap((key) => listIn(data, key)).join(', ')
}
