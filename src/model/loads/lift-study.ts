import type { Rational } from '../../quantities/quantity-types.ts'
import { add, compare, divide, rational, subtract, zero } from '../../quantities/rational.ts'
import { ratingAtAngle } from '../../trade/lifting/hardware.ts'
import { chokerRating } from '../../trade/lifting/hitch.ts'
import { carryingLegs, legTension, taggedCapacity } from '../../trade/lifting/leg-tension.ts'
import { designLoad } from '../../trade/lifting/load.ts'
import { type LegPull, offCentreLevel } from '../../trade/lifting/off-centre.ts'
import { fromHorizontal, riseOfLeg } from '../../trade/lifting/sling-angle.ts'
import type { Resources } from '../resources.ts'
import { heatOf, type LinkWear, linkWearOf } from './gear-condition.ts'
import { type LegProblem, type Legs, legsOf, readAngle } from './legs.ts'
import {
  amountIn,
  amountOf,
  type Carrier,
  carriersOf,
  jerkFactor,
  type LoadBlock,
  textOf,
  type Weight,
  weightOf,
} from './load-data.ts'

/** A lift as far as its block lets it be followed. Weights and pulls in kilograms. */
export interface LiftStudy {
  readonly block: LoadBlock
  readonly weight: Weight | null
  readonly jerk: Rational
  /** What the gear has to take: the most it may weigh, times what jerk adds; null without a weight. */
  readonly load: Rational | null
  readonly legs: Legs
  /** How many of the legs are counted on. */
  readonly carrying: number
  /** Pull in the leg that is pulled most; null where it is not known. */
  readonly tension: Rational | null
  /** Degrees from horizontal of the flattest leg; null where there is one leg or it is not known. */
  readonly flattest: Rational | null
  readonly offCentre: OffCentre | null
  /** Every carrier of `with`, in the order written. */
  readonly train: readonly TrainLink[]
  readonly problem: LegProblem | null
}

/** Two legs of one hook over a weight that is not in the middle, hanging level. */
interface OffCentre {
  readonly typed: string
  /** The leg nearer to the weight, which is pulled more by its share, and the other. */
  readonly near: LegPull
  readonly far: LegPull
  /** The author gives one length for both legs: the load will not hang level. */
  readonly hasLegsAlike: boolean
}

export interface TrainLink {
  readonly carrier: Carrier
  /** The whole load, or the pull of one leg. */
  readonly takes: 'load' | 'leg'
  /** In kilograms; null where it is not known. */
  readonly pull: Rational | null
  /** Its capacity as it is used here: choked, pulled at an angle; null without a capacity. */
  readonly rating: Rational | null
  /** Why the rating is not the capacity; null where it is. */
  readonly because: string | null
  /** A sling of several legs: the angle its tag is for. Null for everything else. */
  readonly tag: Tag | null
  /** Why it may not be used in such heat or cold; null where it may, or no temperature is told. */
  readonly refused: string | null
  /** A chain whose links were measured. */
  readonly wear: LinkWear | null
  /** Pull over rating; null where one of them is missing. */
  readonly used: Rational | null
}

interface Tag {
  /** As typed; null where nobody told. */
  readonly typed: string | null
  /** Degrees from horizontal; null where it is not told, or not told from what. */
  readonly degrees: Rational | null
}

export function studyLift(block: LoadBlock, resources: Resources): LiftStudy {
  const weight = weightOf(block)
  const jerk = jerkFactor(block)
  const designed = weight && designLoad(weight.most, zero, jerk, zero)
  const load = designed?.ok ? designed.value : null
  const legs = legsOf(block)
  const carrying = carryingLegs(legs.count)
  const counted = carrying.ok ? carrying.value : 1
  const centred = pullOfLegs(load, legs, counted)
  const off = load === null ? null : offCentreOf(block, load, legs)
  const offCentre = off && 'near' in off ? off : null
  const problem = legs.problem ?? (off && 'message' in off ? off : null)
  const tension = offCentre ? greater(offCentre.near.tension, offCentre.far.tension) : centred
  const flattest = offCentre ? lesser(offCentre.near.angle, offCentre.far.angle) : (legs.lean?.degrees ?? null)
  const kelvin = amountOf(block, 'temperature', 'temperature')
  const around = { load, tension, flattest, legs, hitch: textOf(block, 'hitch'), kelvin }
  const train = carriersOf(block, 'with', resources).map((carrier) => linkOf(carrier, around))
  return { block, weight, jerk, load, legs, carrying: counted, tension, flattest, offCentre, train, problem }
}

/** The link with the least in hand; null where no pull meets a rating. */
export function weakestLink(study: LiftStudy): (TrainLink & { readonly used: Rational }) | null {
  const known = study.train.flatMap((link) => (link.used === null ? [] : [{ ...link, used: link.used }]))
  const [first, ...rest] = known
  if (!first) return null
  return rest.reduce((worst, link) => (compare(link.used, worst.used) > 0 ? link : worst), first)
}

function pullOfLegs(load: Rational | null, legs: Legs, carrying: number): Rational | null {
  if (load === null) return null
  if (legs.count === 1) return load
  const pull = legs.lean && legTension(load, carrying, legs.lean.rise)
  return pull?.ok ? pull.value : null
}

const fromTheMiddle =
  /^(.+?)\s+(?:towards?\b|off\s+(?:the\s+)?(?:middle|cent(?:re|er))\b|from\s+(?:the\s+)?(?:middle|cent(?:re|er))\b)/i

/** Worked out for two legs with known height and hook-on points, and a sentence like `300 mm towards the drive side`. */
function offCentreOf(block: LoadBlock, load: Rational, legs: Legs): OffCentre | LegProblem | null {
  const typed = textOf(block, 'centre-of-gravity')
  const figure = typed && fromTheMiddle.exec(typed)?.[1]
  const offset = figure ? amountIn(figure, 'length') : null
  const { height, span } = legs.lean ?? { height: null, span: null }
  if (typed === null || !offset || !height || !span || legs.count !== 2) return null
  const half = divide(span, rational(2))
  const near = subtract(half, offset)
  if (near.numerator < 0n)
    return {
      what: 'misfit',
      message: `The weight sits "${typed}", outside hook points ${textOf(block, 'hook-points')} apart: the load would tip over.`,
      advice: 'Move a hook point so that the weight lies between them, or correct the figures.',
    }
  const pulls = offCentreLevel({ load, firstDistance: near, secondDistance: add(half, offset), height })
  if (!pulls.ok) return null
  const hasLegsAlike = textOf(block, 'leg-length') !== null && offset.numerator > 0n
  return { typed, near: pulls.value.first, far: pulls.value.second, hasLegsAlike }
}

interface Around {
  readonly load: Rational | null
  readonly tension: Rational | null
  readonly flattest: Rational | null
  readonly legs: Legs
  readonly hitch: string | null
  /** How hot the gear gets, in kelvin. */
  readonly kelvin: Rational | null
}

function linkOf(carrier: Carrier, around: Around): TrainLink {
  const takes = around.legs.count > 1 && isInALeg(carrier, around.legs.count) ? 'leg' : 'load'
  const pull = takes === 'leg' ? around.tension : around.load
  const tag = takes === 'load' && around.legs.count > 1 && isWholeSling(carrier) ? tagOf(carrier) : null
  const cold = ratingHere(carrier, takes, tag, around)
  const heat = around.kelvin && heatOf(carrier, cold.rating, around.kelvin)
  const rating = heat ? heat.rating : cold.rating
  const reasons = [cold.because, heat?.because].filter((each) => each != null)
  return {
    carrier,
    takes,
    pull,
    rating,
    because: reasons.join('; ') || null,
    tag,
    refused: heat?.refused ?? null,
    wear: linkWearOf(carrier),
    used: pull && rating ? divide(pull, rating) : null,
  }
}

function tagOf({ ratedAt }: Carrier): Tag {
  const angle = ratedAt === null ? null : readAngle(ratedAt)
  const level = angle?.convention ? fromHorizontal(angle.degrees, angle.convention) : null
  return { typed: ratedAt, degrees: level?.ok ? level.value : null }
}

function ratingHere(
  { capacity, name, id }: Carrier,
  takes: TrainLink['takes'],
  tag: Tag | null,
  { hitch, flattest }: Around,
): Pick<TrainLink, 'rating' | 'because'> {
  const words = `${id} ${name}`
  if (capacity === null) return { rating: null, because: null }
  const flatter = flatterThanTag(capacity, tag, flattest)
  const tagged = flatter ?? capacity
  const tagReason = flatter === null ? null : `its tag is for legs at ${tag?.typed}`
  if (hitch === 'choke' && isSling(words)) {
    const choked = chokerRating(tagged)
    const reasons = ['choked, 75 % of its straight pull', ...(tagReason === null ? [] : [tagReason])]
    if (choked.ok) return { rating: choked.value, because: reasons.join('; ') }
  }
  if (flatter) return { rating: flatter, because: tagReason }
  if (takes === 'leg' && flattest && eyeboltOf(words) === 'shouldered') {
    const lean = subtract(rational(90), flattest)
    const tilted = ratingAtAngle(capacity, lean, 'shoulder-eyebolt')
    if (tilted.ok && compare(tilted.value, capacity) < 0)
      return { rating: tilted.value, because: 'a shouldered eyebolt pulled at an angle' }
  }
  return { rating: capacity, because: null }
}

/** Most tags are for legs at 60° from horizontal or flatter; at that angle and steeper nothing is lost. Common practice, no published source. */
const usualTag = rational(60)

/** A sling of several legs that hangs flatter than a usual tag is for, and whose own nobody told. */
export function isTagMissing(tag: Tag | null, flattest: Rational | null): boolean {
  return tag !== null && tag.degrees === null && flattest !== null && compare(flattest, usualTag) < 0
}

/** What a sling may lift with legs flatter than its tag is for; null where they are not flatter. */
export function flatterThanTag(capacity: Rational, tag: Tag | null, flattest: Rational | null): Rational | null {
  if (!tag?.degrees || !flattest || compare(flattest, tag.degrees) >= 0) return null
  const left = taggedCapacity(capacity, riseOfLeg(tag.degrees), riseOfLeg(flattest))
  return left.ok ? left.value : null
}

/** Eyebolts by what their name says. A swivel turns into the pull and is none. */
export function eyeboltOf(words: string): 'plain' | 'shouldered' | null {
  if (/swivel|hoist[- ]ring/i.test(words)) return null
  if (!/\beye[- ]?(?:bolt|nut)s?\b|\blifting[- ]eyes?\b/i.test(words)) return null
  return /shoulder|collar/i.test(words) ? 'shouldered' : 'plain'
}

const wholeSling = /\b(?:two|three|four|2|3|4|multi|double|triple|quad(?:ruple)?)[- ]leg|\bbridle\b/i
const aboveTheLegs =
  /\b(?:crane|hoist|block|beam|bar|bracket|hook|handler|loader|fork[- ]?lift|truck|jack|winch|frame|magnet|spreader|table|gantry)s?\b/i
const inALeg =
  /\b(?:shackle|eye(?:[- ]?(?:bolt|nut))?|hoist[- ]ring|swivel|sling|strop|strap|leg|lug|lifting point|clamp)s?\b/i

/**
 * Whether an item is one of several, one in each leg, or takes the whole load; told by its name, and by how many there are.
 * A sling with several legs is rated as a whole, for the angle on its tag. Common practice, no published source.
 */
function isInALeg(carrier: Carrier, legs: number): boolean {
  const { id, name, resource } = carrier
  const words = `${id.replaceAll('-', ' ')} ${name}`
  if (isWholeSling(carrier)) return false
  const many = /^\d+$/.exec(resource?.quantity?.trim() ?? '')
  if (many && Number(many[0]) >= legs) return true
  if (many && Number(many[0]) === 1) return false
  return inALeg.test(words) && (!aboveTheLegs.test(words) || /\bhoist[- ]ring/i.test(words))
}

function isWholeSling({ id, name }: Carrier): boolean {
  return wholeSling.test(`${id.replaceAll('-', ' ')} ${name}`) || wholeSling.test(id)
}

function isSling(words: string): boolean {
  return /\b(?:sling|strop|strap|rope|chain)s?\b/i.test(words) && !/\b(?:hoist|block|crane)\b/i.test(words)
}

function greater(a: Rational, b: Rational): Rational {
  return compare(a, b) >= 0 ? a : b
}

function lesser(a: Rational, b: Rational): Rational {
  return compare(a, b) <= 0 ? a : b
}
