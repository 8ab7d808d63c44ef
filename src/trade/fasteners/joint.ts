import type { Rational } from '../../quantities/quantity-types.ts'
import { add, divide, fromDecimalText, multiply, one, rational, subtract } from '../../quantities/rational.ts'
import { type BoltStrength, boltStrength } from './bolt-grades.ts'
import { stressArea } from './thread-area.ts'
import { loadOn } from './thread-calculators.ts'
import { readThreadSize, type ThreadSize } from './thread-size.ts'
import { nutFactors, scatterOf } from './tightening-tables.ts'
import { boltTensionOf, boltTorqueOf } from './torque.ts'

/** A bolted joint as a procedure writes it, `12 × M16 10.9, oiled`, and what its thread takes. */

export interface Fastener {
  readonly count: number | null
  readonly size: ThreadSize
  /** `10.9`, `SAE 8`; null where none is written, or none that the standards have. */
  readonly grade: string | null
}

/** Reads `12 × M16 10.9`, `4 × 1/2-13 grade 8`, `M20`; null where the thread is not clear. */
export function readFastener(typed: string): Fastener | null {
  const counted = /^(\d+)\s*[×x]\s*(.+)$/.exec(typed.trim())
  const words = (counted?.[2] ?? typed).trim().split(/\s+/)
  for (let taken = words.length; taken > 0; taken--) {
    const size = readThreadSize(words.slice(0, taken).join(' '))
    if (!size.ok) continue
    const grade = gradeOf(words.slice(taken).join(' '), size.size.system)
    return { count: counted ? Number(counted[1]) : null, size: size.size, grade }
  }
  return null
}

/** `grade 8`, `SAE 8` and `8` on an inch thread are one grade; `class 10.9` and `10.9` on a metric one. */
function gradeOf(typed: string, system: ThreadSize['system']): string | null {
  const name = /^(?:SAE|grade|gr\.?|class|property class)?\s*(?:grade\s*)?(\d+(?:\.\d+)?)$/i.exec(typed.trim())?.[1]
  if (name === undefined) return null
  return system === 'inch' ? `SAE ${name}` : name
}

/** How a thread turns: its nut factor, and how far a preload made with it may be off. */
export interface ThreadFriction {
  readonly state: 'lubricated' | 'dry'
  /** K */
  readonly factor: Rational
  /** γ, as a part of the preload. */
  readonly scatter: Rational
  /** `lubricated`, `zinc plated and dry`, `plain and dry`. */
  readonly row: string
}

const LUBRICANTS = new Set(['oiled', 'greased'])
/** Finishes whose dry nut factor the table has. */
const DRY_ROWS: Readonly<Record<string, string>> = {
  '': 'plain and dry',
  plain: 'plain and dry',
  zinc: 'zinc plated and dry',
}
/** Galls or brings its own film: oil and grease make of it what nobody tabled. */
const UNTABLED = new Set(['stainless', 'zinc flake', 'galvanised', 'cadmium'])

/**
 * By lubrication and finish as typed, `zinc, dry`; null where the table has no row for it: waxes, pastes and thread lock turn as their maker
 * says.
 */
export function frictionOf(typed: string): ThreadFriction | null {
  const words = typed.split(',').map((word) => word.trim())
  const isDry = words.includes('dry')
  const isLubricated = words.some((word) => LUBRICANTS.has(word))
  if (isDry === isLubricated || words.some((word) => UNTABLED.has(word))) return null
  const finish = words.filter((word) => word !== 'dry').join()
  return isLubricated ? frictionOfRow('lubricated') : frictionOfRow(DRY_ROWS[finish] ?? '')
}

export function frictionOfRow(row: string): ThreadFriction | null {
  const factor = nutFactors[row]
  if (factor === undefined) return null
  const state = row === 'lubricated' ? 'lubricated' : 'dry'
  return { state, factor: rational(factor, 100), scatter: rational(scatterOf('torque wrench', state), 100), row }
}

/** What one fastener of a joint takes; newtons, metres, N·m. */
export interface Joint {
  readonly fastener: Fastener & { readonly grade: string }
  readonly friction: ThreadFriction
  readonly strength: BoltStrength
  /** As */
  readonly area: Rational
  /** Fp = Sp · As */
  readonly proofLoad: Rational
  /** Torque at the usual share of the proof load. */
  readonly usualTorque: Rational
  /** Torque at which the preload reaches the proof load. */
  readonly proofTorque: Rational
}

/** Usual part of the proof load in joints that are taken apart again (common practice, as in tables of SAE J429 bolts). */
const usualShare = fromDecimalText('0.75') ?? one

/** Null where the standards have no such grade in that diameter. */
export function jointOf(fastener: Fastener, friction: ThreadFriction): Joint | null {
  const { size, grade } = fastener
  const strength = grade === null ? null : boltStrength(grade, size.diameter)
  if (grade === null || strength === null) return null
  const area = stressArea(size.diameter, size.pitch, size.system)
  const proofLoad = loadOn(area, strength.proof)
  const proofTorque = boltTorqueOf(friction.factor, size.diameter, proofLoad)
  return {
    fastener: { ...fastener, grade },
    friction,
    strength,
    area,
    proofLoad,
    usualTorque: multiply(usualShare, proofTorque),
    proofTorque,
  }
}

/** Preload that a torque makes: F = T / (K · D). */
export function preloadAt(joint: Joint, torque: Rational): Rational {
  return boltTensionOf(torque, joint.friction.factor, joint.fastener.size.diameter)
}

/** Part of the proof load that a torque makes. */
export function shareAt(joint: Joint, torque: Rational): Rational {
  return divide(torque, joint.proofTorque)
}

/** Least preload of a torque, friction at the high end of its scatter. */
export function leastOf(joint: Joint, preload: Rational): Rational {
  return multiply(preload, subtract(one, joint.friction.scatter))
}

/** Largest preload of a torque, friction at the low end of its scatter. */
export function mostOf(joint: Joint, preload: Rational): Rational {
  return multiply(preload, add(one, joint.friction.scatter))
}
