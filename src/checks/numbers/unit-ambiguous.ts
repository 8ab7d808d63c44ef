import type { Fault } from '../../findings/finding.ts'
import { type QuantityInText, quantitiesIn } from '../../quantities/find-quantities-in-text.ts'
import { kindInWords, readUnit } from '../../quantities/units.ts'
import { oncePer } from '../../text/once-per.ts'
import type { Check, CheckSubject } from '../check.ts'
import { everyText, type TypedText } from '../every-text.ts'
import { sentencesOf } from '../sentences.ts'

/** A ton can be 907, 1000 or 1016 kg; "to 30 lb" is no torque. Blocks refuse both, and so may the wording not leave it open. */
export const unitAmbiguous: Check = {
  name: 'numbers/unit-ambiguous',
  severity: 'warning',
  title: 'A unit in the wording can mean different amounts, or does not fit the word before it.',
  rules: ['NU-03', 'NU-21'],

  *run({ procedure, written }: CheckSubject): Iterable<Fault> {
    for (const said of everyText(procedure, written)) {
      for (const { typed, message, advice } of doubtsIn(said.typed)) yield { at: said.placeOf(typed), message, advice }
    }
  },
}

const doubtsIn = oncePer((said: TypedText): readonly Doubt[] =>
  said.isValue && !isSentence(said.text) ? [] : [...bareUnits(said), ...unitsOfAnotherThing(said)],
)

interface Doubt {
  readonly typed: string
  readonly message: string
  readonly advice: string
}

/** Values that are quantities are read, and refused, by the parser of the block. */
const isSentence = (text: string): boolean => text.trim().split(/\s+/).length > 3

const bareUnit =
  /(?<![\p{L}\d.,/#:-])(?:\d[\d.,]{0,12}(?:[ \u00A0]\d{3})?|\d{1,3}\/\d{1,3})[ \u00A0-]?(tons?|gals?|gallons?|gpm|gph|oz|ounces?|fl\.? ?oz|fluid ounces?|quarts?|qts?|pints?|cwt)(?![\p{L}\d]|[ \u00A0.-]?(?:in\b|av\b|US\b|UK\b|imp\b|\((?:US|UK|imp)))/giu

function bareUnits({ text }: TypedText): readonly Doubt[] {
  return [...text.matchAll(bareUnit)].flatMap(([typed, unit = '']): readonly Doubt[] => {
    const read = readUnit(unit)
    if (read.ok) return []
    return [{ typed, message: `"${typed}": ${read.problem.message}`, advice: read.problem.advice }]
  })
}

/** `to 30 lb` where something is tightened or inflated, `to 110 degrees` where something is heated. */
function unitsOfAnotherThing({ text }: TypedText): readonly Doubt[] {
  return sentencesOf(text).flatMap((sentence) => {
    // Only these words can make a unit doubtful, and few sentences have one beside a figure.
    if (!/\d/.test(sentence) || ![tightening, inflating, heating].some((words) => words.test(sentence))) return []
    return quantitiesIn(sentence).quantities.flatMap((quantity): readonly Doubt[] => {
      const doubt = doubtAbout(quantity, sentence)
      return doubt ? [{ ...doubt, typed: quantity.limit.typed }] : []
    })
  })
}

const setTo = /\b(?:to|at|of|least|most|than|max\.?|min\.?|maximum|minimum)\s*$/i
const tightening = /\b(?:tighten(?:s|ed|ing)?|torqu(?:e|es|ed|ing))\b/i
const inflating = /\b(?:inflat(?:e|es|ed|ing)|pump(?:s|ed)? up|pressuri[sz](?:e|es|ed|ing)|pressure)\b/i
const pulling =
  /\b(?:pull|tension|tensioned|force|preload|load|loads|loaded|weighs?|weights?|straps?|chains?|belts?|spring|scale|drag)\b/i
const heating =
  /\b(?:heat(?:s|ed|ing)?|warm(?:s|ed|ing)?|cool(?:s|ed|ing)?|chill(?:s|ed|ing)?|freez(?:e|es|ing)|bak(?:e|es|ed|ing)|boil(?:s|ing)?|preheat(?:ed|ing)?|temperatures?|oven)\b/i
const turning =
  /\b(?:turn(?:s|ed|ing)?|rotat(?:e|es|ed|ing|ion)|angles?|tilt(?:s|ed)?|horizontal(?:ly)?|vertical(?:ly)?|swing|bevel|chamfer|slopes?|apart|intervals|clockwise|counterclockwise|anticlockwise|quadrants?|legs?)\b/i

const namedBefore = /\b(torque|pressure)(?:\s+(?:of|is|at|to)|:)?\s+(?:(?:about|max\.?|min\.?|at least|at most)\s+)?$/i
/** What cannot be meant by the word: a force may press, so `pressure of 5 N` is left alone. */
const notThat: Readonly<Record<string, ReadonlySet<string>>> = {
  torque: new Set(['energy', 'pressure', 'force']),
  pressure: new Set(['torque', 'energy']),
}

function doubtAbout({ limit, from }: QuantityInText, sentence: string): Omit<Doubt, 'typed'> | null {
  const lead = sentence.slice(0, from)
  const { typed, kind, unit } = limit
  if (kind === 'mass' && /^(?:lb|kg|oz av)$/.test(unit) && setTo.test(lead) && !pulling.test(sentence)) {
    if (tightening.test(lead))
      return {
        message: `"${typed}" is a weight, and a torque is a force times the length of the lever.`,
        advice:
          unit === 'lb'
            ? 'Type `lbf·ft` or `lbf·in`, whichever is meant.'
            : 'Type `kgf·m`, `kgf·cm` or `N·m`, whichever is meant.',
      }
    if (inflating.test(lead))
      return {
        message: `"${typed}" is a weight, and a pressure is a force on an area.`,
        advice: unit === 'lb' ? 'Type `psi`, if that is meant.' : 'Type `kgf/cm²` or `kPa`, whichever is meant.',
      }
  }
  const thing = namedBefore.exec(lead)?.[1]?.toLowerCase()
  if (thing && notThat[thing]?.has(kind))
    return {
      message: `"${typed}" is ${kindInWords(kind)}, but the word before it is "${thing}".`,
      advice: `Type the unit of ${kindInWords(thing)}, such as ${thing === 'torque' ? '`N·m` or `lbf·ft`' : '`kPa` or `psi`'}, or the right word.`,
    }
  if (unit === '°' && heating.test(sentence) && !turning.test(sentence))
    return { message: `"${typed}" does not say of which scale.`, advice: 'Type `°C` or `°F`.' }
  return null
}
