import type { Fault } from '../../findings/finding.ts'
import type { Check, CheckSubject } from '../check.ts'
import { textIn } from '../entry-data.ts'
import { everyHotWork, saidUnder } from '../hot-works.ts'

/** What it may have held that burns, or whose vapour does. */
const heldFuel =
  /\b(?:fuel|diesel|petrol|gasoline|kerosene|solvent|thinner|paint|oil|grease|gas|lpg|propane|alcohol)\b/i
const body = /\b(?:tank|drum|barrel|can|sump|cylinder|housing|gearbox|pipe|line|hose|bore|chamber|case)\b/i
const tested = /\b(?:gas[- ]?test(?:ed|er)?|gas[- ]?free|LEL|LFL|explosive limit|explosimeter)\b/i

/** A tank that smells of nothing has blown up under a torch before. */
export const closedVolumeUntested: Check = {
  name: 'hot-work/closed-volume-untested',
  severity: 'error',
  title: 'Hot work on something that held fuel or oil starts without a gas test.',
  rules: ['HW-06'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    for (const { where, data, words, at } of everyHotWork(procedure)) {
      const volumes = saidUnder(data, 'closed-volumes')
      const on = textIn(data, 'on') ?? ''
      const held = heldFuel.exec(volumes)?.[0] ?? (body.test(on) ? heldFuel.exec(on)?.[0] : undefined)
      if (held === undefined || textIn(data, 'gas-test') !== null || tested.test(words)) continue
      yield {
        at,
        message: `${where} heats what held ${held.toLowerCase()} ("${volumes === '' ? on : volumes}"), and no gas test is asked for.`,
        advice: 'Write gas-test: … with who tests and what he must read, such as 0 % of the lower explosive limit.',
      }
    }
  },
}
