import type { Fault } from '../../findings/finding.ts'
import type { Phase, Procedure, Step } from '../../model/procedure.ts'
import type { Check, CheckSubject } from '../check.ts'
import { doersOf, everyWrittenStep } from '../every-step.ts'
import { choices } from '../unknown-name.ts'

/** Words that put a body, or a hand, into a place. */
const goesIn =
  /\b(?:reach|crawl|climb|lean|squeeze|creep|step|get|go|lie|slide)\s+(?:\w+\s+){0,2}?(?:under|underneath|below|beneath|into|inside|in between|between|behind)\b|\benter the\b/i

/** Words that keep it out: the step says itself that nobody goes in. */
const staysOut = /\bfrom (?:outside|beside|behind|the side|a distance|above)\b|\b(?:do not|never|nobody|no one)\b/i

/** Where the document has dangerous places, each phase says where its people are: who is said to be nowhere is in no count. */
export const zoneUnnamed: Check = {
  name: 'flow/zone-unnamed',
  severity: 'error',
  title: 'A document with zones does not say where somebody is.',
  rules: ['SG-21'],

  *run({ procedure }: CheckSubject): Iterable<Fault> {
    if (procedure.zones.length === 0) return
    const zones = [...new Set(procedure.zones.map((zone) => zone.name))]
    const ways = zones.map((zone) => ({ zone, going: goingInto(zone) }))
    for (const { where, steps, at, title } of procedure.phases) {
      if (where.length > 0 || steps.length === 0) continue
      yield {
        at,
        message: `"${title}" does not say where its people are.`,
        advice: `Write in the block of the phase: where: ${choices([...zones, 'out'])}`,
      }
    }
    for (const { step, phase } of everyWrittenStep(procedure)) {
      const way = ways.find(
        ({ zone, going }) => isSaidToGoInto(going, step.text.plain) && !isSomebodyIn(zone, step, phase, procedure),
      )
      if (way !== undefined) {
        const { zone, going } = way
        yield {
          at: step.at,
          message: `Step ${step.number} says "${going.exec(step.text.plain)?.[0]}", and nobody who does it is said to be in ${zone}.`,
          advice: `Say so: enters: ${zone}, or in the block of the phase where: ${zone}.`,
        }
        continue
      }
      const words = goesIn.exec(step.text.plain)?.[0]
      if (words === undefined || staysOut.test(step.text.plain) || !isOut(step, phase)) continue
      yield {
        at: step.at,
        message: `Step ${step.number} says "${words}", and ${choices(doersOf(step)) || 'whoever does it'} is said to be out.`,
        advice: `Say where: enters: ${choices(zones)}. If that place is dangerous and not among them, make it a zone.`,
      }
    }
  },
}

const preposition = 'into|inside|in|under|underneath|below|beneath|behind|between|onto|on|within'

/** `Stand under the body` for the zone `under-body`, `Climb down into the pit` for `pit`: it is somebody who goes there, and no thing. */
function goingInto(zone: string): RegExp {
  const words = zone.split(/[-_]/).map((word) => word.replace(/[^\p{L}\p{N}]/gu, ''))
  const article = '(?:(?:the|a|an|its|this|that) )?'
  const saysWhere = new RegExp(`^(?:${preposition})$`).test(words[0] ?? '')
  const place = words.join(` ${article}`)
  const verb = 'stand|kneel|sit|crouch|lie|work|stay|wait|walk|reach|crawl|climb|lean|squeeze|creep|step|get|go|slide'
  const way = '(?: (?:down|up|in|back|right|well|on your back))*'
  return new RegExp(`\\b(?:${verb})${way} ${saysWhere ? '' : `(?:${preposition}) `}${article}${place}\\b`, 'i')
}

/** Said of somebody who does it now: not of before or until, and not of what nobody does. */
function isSaidToGoInto(going: RegExp, text: string): boolean {
  const found = going.exec(text)
  if (found === null || staysOut.test(text)) return false
  return !/\b(?:before|until|unless|if|when|after|who|whoever|that|to)\b[^,.;]*$/i.test(text.slice(0, found.index))
}

/** Whether somebody who does the step is said to be in the zone then, or was put there earlier in the phase. */
function isSomebodyIn(zone: string, step: Step, phase: Phase, procedure: Procedure): boolean {
  const doers = doersOf(step)
  const earlier = phase.steps.slice(0, Math.max(0, phase.steps.indexOf(step))).flatMap((other) => other.where)
  return [...phase.where, ...earlier, ...step.where, ...step.enters]
    .filter(({ role }) => role === null || doers.length === 0 || doers.includes(role))
    .flatMap(({ zones }) => zones)
    .some((id) => id === zone || procedure.zones.some((one) => one.id === id && one.name === zone))
}

/** Whether everyone who does the step is said to be out while it is done. */
function isOut(step: Step, phase: Phase): boolean {
  const said = [...step.where, ...step.enters]
  if (said.length > 0) return said.every(({ zones }) => zones.every((zone) => zone === 'out'))
  const earlier = phase.steps.slice(0, Math.max(0, phase.steps.indexOf(step))).flatMap((other) => other.where)
  const all = [...phase.where, ...earlier]
  return all.length > 0 && all.every(({ zones }) => zones.every((zone) => zone === 'out'))
}
