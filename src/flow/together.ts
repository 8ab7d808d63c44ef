import { follow } from './answers.ts'
import { doMoment } from './changes.ts'
import type { Job } from './job.ts'
import { lookAtResuming, type Resuming } from './pause.ts'
import type { Plan } from './plan.ts'
import { arrive, type Run } from './run.ts'
import type { Spot } from './spots.ts'
import type { SideBySide, Strand } from './strands.ts'
import type { Way } from './ways.ts'
import { beginStep, count, endStep, goThere, leave, takeWays } from './work.ts'

/** A step of a phase worked `together` that is over. Below it: 0 not begun, else the next of its moments. */
export const OVER = 255

/** What a situation tells of how it was reached, inside a phase worked `together`. */
export const BEGUN = 0
export const GOES_ON = 1
export const PASSED = 2
export const WAS_OUT = 3

/** The mark of a move inside a phase worked `together`; always below −1. */
export function insideMark(spot: number, what: number): number {
  return -2 - (spot * 4 + what)
}

export function readMark(via: number): { readonly spot: number; readonly what: number } {
  const mark = -2 - via
  return { spot: mark >> 2, what: mark & 3 }
}

/** Any of the steps that may go on does its next moment; so every order is followed. */
export function visitTogether(run: Run, row: Uint8Array, phase: SideBySide, resuming: Resuming): void {
  const { progress } = run.plan.layout
  const isUntouched = phase.strands.every((_, index) => row[progress[index] ?? 0] === 0)
  const [first] = phase.strands
  if (isUntouched && first) lookAtResuming(run, row, first.home, resuming)
  run.beside = phase.strands.flatMap((strand, index) => runningJob(strand, row[progress[index] ?? 0] ?? 0))
  for (const [index, strand] of phase.strands.entries()) {
    const next = row[progress[index] ?? 0] ?? 0
    if (next === OVER) continue
    if (next > 0) goOn(run, row.slice(), phase, index, next)
    else if (mayBegin(run.plan, row, phase, index)) beginStrand(run, row.slice(), phase, index, strand)
  }
  run.beside = []
}

function runningJob(strand: Strand, next: number): readonly Job[] {
  const job = next === 0 || next === OVER ? null : (strand.moments[next - 1]?.spot.job ?? null)
  return job ? [job] : []
}

/** Everybody has only two hands: what came earlier with the same people is over; a decision comes last of all. */
function mayBegin(plan: Plan, row: Uint8Array, phase: SideBySide, index: number): boolean {
  const strand = phase.strands[index]
  const decides = strand?.home.job?.step.decide != null
  return phase.strands.every((other, number) => {
    if (number === index || row[plan.layout.progress[number] ?? 0] === OVER) return true
    if (decides) return false
    return number > index || !other.home.job?.actors.some((role) => strand?.home.job?.actors.includes(role))
  })
}

function beginStrand(run: Run, row: Uint8Array, phase: SideBySide, index: number, strand: Strand): void {
  const { home } = strand
  const { job } = home
  if (job === null) return
  run.spot = home
  run.reached[home.number] = 1
  const work = (here: Uint8Array): void => goOn(run, here, phase, index, 1)
  const skip = (here: Uint8Array): void =>
    isAloneLeft(run, here, phase, index) && index === phase.strands.length - 1
      ? takeWays(run, here, home.skipped, (after, way) => goThere(run, after, way, false))
      : end(run, here, phase, index, GOES_ON)
  if (!job.isInVariant) skip(row)
  else if (job.when === null) work(row)
  else follow(run, row, job.when, (here, holds) => (holds ? work(here.slice()) : skip(here.slice())))
}

/** One moment of one step. */
function goOn(run: Run, row: Uint8Array, phase: SideBySide, index: number, next: number): void {
  const at = phase.strands[index]?.moments[next - 1]
  const job = at?.spot.job
  if (!at || !job) return
  run.spot = at.spot
  const moment = job.moments[at.moment]
  if (moment === undefined) return
  if (moment.is === 'end') {
    endStep(run, row, at.spot, job, (after, isOut) => leaveStep(run, after, phase, index, at.spot, isOut))
    return
  }
  if (moment.is === 'begin') beginStep(run, row, at.spot, job)
  else doMoment(run, row, moment, job)
  stay(run, row, phase, index, next + 1, insideMark(at.spot.number, moment.is === 'begin' ? BEGUN : GOES_ON))
}

function leaveStep(run: Run, row: Uint8Array, phase: SideBySide, index: number, spot: Spot, isOut: boolean): void {
  const strand = phase.strands[index]
  if (strand === undefined) return
  const { home } = strand
  const what = isOut ? WAS_OUT : PASSED
  const isLast = index === phase.strands.length - 1 && isAloneLeft(run, row, phase, index)
  const isHome = spot === home
  if (isHome && !isOut && !isLast) {
    end(run, row, phase, index, what)
    return
  }
  leave(run, row, spot, isOut, (going, way) => {
    const again = strand.starts.get(way.to)
    if (again !== undefined) {
      const here = going.slice()
      count(here, way)
      run.taken[way.edge] = 1
      stay(run, here, phase, index, again, insideMark(spot.number, what))
    } else if (isOnward(home, way) && !isLast) {
      const here = going.slice()
      count(here, way)
      run.taken[way.edge] = 1
      end(run, here, phase, index, what)
    } else goThere(run, going, way, isOut)
  })
}

const isOnward = (home: Spot, way: Way): boolean =>
  home.job?.step.decide == null && home.passed.some((passed) => passed.to === way.to)

function isAloneLeft(run: Run, row: Uint8Array, phase: SideBySide, index: number): boolean {
  return phase.strands.every((_, other) => other === index || row[run.plan.layout.progress[other] ?? 0] === OVER)
}

/** A step is over; when all are, the phase is left as its last step says. */
function end(run: Run, row: Uint8Array, phase: SideBySide, index: number, what: number): void {
  const last = phase.strands.at(-1)
  if (last && isAloneLeft(run, row, phase, index)) {
    takeWays(run, row, last.home.passed, (after, way) => goThere(run, after, way, what === WAS_OUT))
    return
  }
  stay(run, row, phase, index, OVER, insideMark(run.spot.number, what))
}

function stay(run: Run, row: Uint8Array, phase: SideBySide, index: number, next: number, via: number): void {
  run.scratch.set(row)
  run.scratch[run.plan.layout.progress[index] ?? 0] = next
  arrive(run, phase.spot, via)
}
