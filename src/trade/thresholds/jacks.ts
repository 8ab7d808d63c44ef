import type { Rational } from '../../quantities/quantity-types.ts'
import { compare, zero } from '../../quantities/rational.ts'
import { nearestName } from '../../text/nearest-name.ts'
import { type Answer, answer, refuse } from '../answer.ts'

/*
 * Jacks. Source: 29 CFR 1910.244(a), edition of 7-1-11, read in a full-text copy: rating and marking (a)(1), operation (a)(2).
 * Local law, site rules and the maker's instructions come first.
 */

/** The rating must be enough for the load. Both in one unit. */
export function jackHolds(rating: Rational, load: Rational): Answer<boolean> {
  if (compare(rating, zero) <= 0) return refuse('rating', 'The rating must be above 0.', 'Type the rating as marked.')
  if (compare(load, zero) <= 0) return refuse('load', 'The load must be above 0.', 'Type what the jack has to lift.')
  return answer(compare(load, rating) <= 0)
}

/** The rated load is marked so that it can be read, and a stop keeps the jack from running out of its travel. */
export function jackIsFit(jack: { readonly isMarked: boolean; readonly hasStop: boolean }): boolean {
  return jack.isMarked && jack.hasStop
}

/** After raising, the load is cribbed, blocked or otherwise secured at once, before anything else. */
export function mayGoOnAfterRaising(load: { readonly isRaised: boolean; readonly isSecured: boolean }): boolean {
  return !load.isRaised || load.isSecured
}

/** The base is blocked where the footing is not firm. */
export function baseIsBlocked(hasFirmFooting: boolean): boolean {
  return !hasFirmFooting
}

/** A jack that is out of order is tagged and not used until it is repaired. */
export function jackMayBeUsed(hasDefect: boolean): boolean {
  return !hasDefect
}

const inspections = [
  ['regular', '6 months'],
  ['constant', '6 months'],
  ['intermittent', '6 months'],
  ['loaned', 'out and return'],
  ['sent out', 'out and return'],
  ['shock', 'before and after'],
  ['abnormal load', 'before and after'],
] as const

/** When a jack is inspected, by how it is used: in regular use every 6 months, sent out when it goes and comes back, before and after a shock. */
export function jackInspection(use: string): Answer<string> {
  const words = use
    .trim()
    .toLowerCase()
    .replace(/[\s_-]+/g, ' ')
  const found = inspections.find(([kind]) => words.includes(kind))
  if (found) return answer(found[1])
  const kinds = inspections.map(([kind]) => kind)
  const near = nearestName(words, kinds)
  return refuse(
    'use',
    `"${use}" is not a use that the rule knows.`,
    near === null ? `Type one of: ${kinds.join(', ')}.` : `Did you mean "${near}"?`,
  )
}

const standing = /stand|crib|block|props?\b|trestle|pillar|timber|strut|(?:safety|lock(?:ing)?) bar/
// A chain block is a hoist.
const hoistBlock = /\b(?:chain|pulley|lever|hoist)[\s-]block/g
const denied = /\b(?:no|not|without|missing)\b[^,;]*/g

/**
 * Whether anyone may be under a load held by these: only where something that stands by itself holds it. Jacks, hoists, cranes and
 * hydraulics let go; they are for moving, not for holding. Source: same section, and common practice.
 */
export function mayWorkUnder(supports: readonly string[]): Answer<boolean> {
  if (supports.length === 0) return refuse('supports', 'Nothing holds the load.', 'Type what it stands on.')
  return answer(
    supports.some((support) => standing.test(support.toLowerCase().replace(denied, '').replace(hoistBlock, ''))),
  )
}
