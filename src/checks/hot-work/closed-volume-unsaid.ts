import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { listIn, textIn } from '../entry-data.ts'
import { everyHotWork } from '../hot-works.ts'

const hollow =
  /\b(?:cylinder|tank|drum|barrel|tube|pipe|roller|pulley|box section|hollow|housing|gearbox|axle|boom|tyre|rim|wheel)\b/i

/** Air and oil that cannot get out burst what is heated. */
export const closedVolumeUnsaid: Check = {
  name: 'hot-work/closed-volume-unsaid',
  severity: 'warning',
  title: 'Something hollow is heated, and nothing says how it is opened.',
  rules: ['HW-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, data, at } of everyHotWork(procedure)) {
      const on = textIn(data, 'on') ?? ''
      const what = hollow.exec(on)?.[0]
      if (what === undefined || listIn(data, 'closed-volumes').length > 0) continue
      yield {
        at,
        message: `${where} heats "${on}". A ${what.toLowerCase()} may hold air, oil or gas that cannot get out.`,
        advice: 'Say how each hollow is opened: closed-volumes: ["bore, both plugs out"], or closed-volumes: [none]',
      }
    }
  },
}
