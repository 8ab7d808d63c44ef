import type { Rational } from '../../quantities/quantity-types.ts'
import { divide, rational, subtract } from '../../quantities/rational.ts'
import { betweenUnits } from '../../trade/between-units.ts'
import { chainWornOut, heatReduction, lossAfterHeat, reducedBy } from '../../trade/lifting/chain-condition.ts'
import type { ChainGrade } from '../../trade/lifting/chain-sling.ts'
import { mayBeUsedAt, type SlingMaterial, temperatureLimits } from '../../trade/lifting/wire-rope.ts'
import { amountIn, type Carrier } from './load-data.ts'

/** What heat leaves of a sling, and what wear leaves of a chain. */

export interface Heat {
  /** What it may still lift, in kilograms; null where it may not be used at all, or no capacity is known. */
  readonly rating: Rational | null
  /** For print: `hot, 20 % less`; null where nothing changes. */
  readonly because: string | null
  /** Why it may not be used; null where it may. */
  readonly refused: string | null
}

/** Null for what is no sling, or where its material cannot be told by its name. */
export function heatOf({ id, name }: Carrier, rating: Rational | null, kelvin: Rational): Heat | null {
  const words = `${id.replaceAll('-', ' ')} ${name}`
  const fahrenheit = betweenUnits(kelvin, 'K', '°F')
  if (!sling.test(words) || drives.test(words)) return null
  if (/\bchains?\b/i.test(words)) return heatOfChain(words, rating, fahrenheit)
  const material = materialOf(words)
  if (material === null) return null
  if (mayBeUsedAt(fahrenheit, material)) return { rating, because: null, refused: null }
  const { coldest, hottest } = temperatureLimits[material]
  return {
    rating: null,
    because: null,
    refused: `${material} may be used from ${celsius(coldest)} to ${celsius(hottest)}`,
  }
}

const sling = /\b(?:slings?|strops?|straps?|chains?|ropes?)\b/i
const drives = /\b(?:hoist|block|crane|winch)\b/i

function heatOfChain(words: string, rating: Rational | null, fahrenheit: Rational): Heat {
  const grade: ChainGrade = /\b(?:grade|class|G)[ -]?(?:100|10)\b/i.test(words) ? '100' : '80'
  const heat = heatReduction(fahrenheit, grade)
  if (!heat.ok) return { rating: null, because: null, refused: heat.problem.message.replace(/\.$/, '').toLowerCase() }
  const { reduction } = heat.value
  if (reduction.numerator === 0n) return { rating, because: null, refused: null }
  const lost = lossAfterHeat(fahrenheit)
  const after =
    lost.ok && lost.value.numerator > 0n ? `; ${lost.value.numerator} % stay lost when it is cold again` : ''
  return {
    rating: rating && reducedBy(rating, reduction),
    because: `hot, grade ${grade}: ${reduction.numerator} % less${after}`,
    refused: null,
  }
}

function materialOf(words: string): SlingMaterial | null {
  if (/\b(?:web(?:bing)?|round|synthetic|textile|polyester|nylon|ratchet)\b/i.test(words)) return 'synthetic webbing'
  if (/\b(?:manila|hemp|sisal|fib(?:re|er) rope)\b/i.test(words)) return 'fibre rope'
  if (!/\b(?:wire|steel) ?ropes?\b|\bwire slings?\b/i.test(words)) return null
  return /\b(?:wire|steel) core\b|\bIWRC\b/i.test(words) ? 'wire rope, wire core' : 'wire rope, fibre core'
}

function celsius(fahrenheit: Rational): string {
  const value = divide(subtract(fahrenheit, rational(32)), rational(9, 5))
  const whole = value.numerator / value.denominator
  return `${String(whole).replace('-', '−')} °C`
}

/** The links of a chain as its gear list has them: `link 13 mm, worn 11.9 mm`. */
export interface LinkWear {
  /** As typed. */
  readonly link: string
  readonly worn: string
  /** Worn off, as part of the thickness; null where the figures do not go together. */
  readonly share: Rational | null
  readonly isOut: boolean
}

export function linkWearOf({ resource }: Carrier): LinkWear | null {
  const typed = (name: string) => resource?.facts.find((fact) => fact.name === name)?.text ?? null
  const [link, worn] = [typed('link'), typed('worn')]
  if (link === null || worn === null) return null
  const [stock, left] = [amountIn(link, 'length'), amountIn(worn, 'length')]
  const out = stock && left && chainWornOut(stock, left)
  if (!out?.ok || stock === null || left === null) return { link, worn, share: null, isOut: false }
  return { link, worn, share: divide(subtract(stock, left), stock), isOut: out.value }
}
