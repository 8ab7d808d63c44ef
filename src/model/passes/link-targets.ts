import { type Finding, found } from '../../findings/finding.ts'
import { type Inline, type Prose, plainText } from '../../syntax/prose.ts'
import { nearestName } from '../../text/nearest-name.ts'
import type { Place } from '../../text/place.ts'
import { unknownTarget } from '../faults/faults.ts'
import type { Consequence, Decide, Target } from '../outcomes.ts'
import type { Exposed, Keep, Phase, Procedure, Step, StepText } from '../procedure.ts'
import type { Variant } from '../variants.ts'

/** Where in the procedure a name is used. */
interface Here {
  readonly suffix: string
  readonly step: Step | null
}

interface Linkable extends Target {
  readonly baseId: string
  readonly suffix: string
  readonly label: string | null
}

/** Turns the names of steps and phases into ids and printed numbers, and `[=id]` into the printed value. */
export function linkTargets<Parts extends Pick<Procedure, 'phases' | 'purpose'>>(
  parts: Parts,
  variants: readonly Variant[],
  findings: Finding[],
): Parts {
  const linkables = parts.phases.flatMap((phase): readonly Linkable[] => {
    const common = { suffix: suffixOf(phase.id), label: phase.position?.label ?? null }
    return [
      { id: phase.id, baseId: phase.baseId, number: phase.number, ...common },
      ...allSteps(phase.steps).map((step) => ({
        id: step.id,
        baseId: step.baseId,
        number: step.number,
        ...common,
        suffix: suffixOf(step.id),
      })),
    ]
  })
  const byBaseId = new Map<string, Linkable[]>()
  for (const linkable of linkables) {
    const same = byBaseId.get(linkable.baseId)
    if (same) same.push(linkable)
    else byBaseId.set(linkable.baseId, [linkable])
  }
  const order = parts.phases.flatMap((phase) => allSteps(phase.steps))
  const values = valuesOf(order)

  const find = (name: string, here: Here): Target | null => {
    if (name === 'this' && here.step) return { id: here.step.id, number: here.step.number }
    const candidates = byBaseId.get(name.replace(/^#/, ''))
    const best =
      candidates?.find((candidate) => candidate.suffix === here.suffix) ??
      candidates?.find((candidate) => here.suffix.startsWith(candidate.suffix)) ??
      candidates?.[0]
    if (best === undefined) return null
    const elsewhere = best.label !== null && best.suffix !== here.suffix && !here.suffix.startsWith(best.suffix)
    return { id: best.id, number: elsewhere ? `${best.number} ${best.label}` : best.number }
  }

  const report = (name: string, at: Place): void => {
    const near = nearestName(name, byBaseId.keys())
    findings.push(
      found(unknownTarget, {
        at,
        message: `"${name}" is no step or phase of this procedure.`,
        advice: near ? `Did you mean "${near}"?` : 'Give the step an id, `{#name}`, and write that name here.',
      }),
    )
  }

  const link = (target: Target, here: Here, at: Place): readonly Target[] => {
    const range = /^(.+?)\s+to\s+(.+)$/.exec(target.id)
    if (range) return linkRange(range[1] ?? '', range[2] ?? '', here, at)
    const linked = find(target.id, here)
    if (linked === null) report(target.id, at)
    return linked ? [linked] : []
  }

  const linkRange = (first: string, last: string, here: Here, at: Place): readonly Target[] => {
    const from = find(first, here)
    const to = find(last, here)
    if (from === null) report(first, at)
    if (to === null) report(last, at)
    const start = order.findIndex((step) => step.id === from?.id)
    const end = order.findIndex((step) => step.id === to?.id)
    if (start < 0 || end < start) return [from, to].flatMap((target) => target ?? [])
    return order.slice(start, end + 1).map((step) => ({ id: step.id, number: step.number }))
  }

  const linkConsequence = (consequence: Consequence, here: Here): Consequence => ({
    ...consequence,
    targets: consequence.targets.flatMap((target) => link(target, here, consequence.at)),
    then: consequence.then && linkConsequence(consequence.then, here),
  })

  const linkDecide = (decide: Decide, here: Here): Decide => ({
    ...decide,
    branches: decide.branches.map((branch) => ({
      ...branch,
      target: branch.target && (link(branch.target, here, branch.at)[0] ?? null),
    })),
  })

  const linkInlines = (inlines: readonly Inline[], here: Here): readonly Inline[] =>
    inlines.map((inline): Inline => {
      switch (inline.kind) {
        case 'strong':
        case 'emphasis':
        case 'link':
          return { ...inline, children: linkInlines(inline.children, here) }
        case 'reference': {
          const target = find(inline.to, here)
          if (target === null && inline.at) report(inline.to, inline.at)
          return {
            ...inline,
            to: target?.id ?? inline.to,
            text: target?.number ?? '',
            children: linkInlines(inline.children, here),
          }
        }
        case 'value':
          return { ...inline, text: values.get(inline.name) ?? inline.name }
        default:
          return inline
      }
    })

  const linkProse = (prose: readonly Prose[], here: Here): readonly Prose[] =>
    prose.map((piece): Prose => {
      switch (piece.kind) {
        case 'paragraph':
          return { ...piece, children: linkInlines(piece.children, here) }
        case 'list':
          return { ...piece, items: piece.items.map((item) => linkProse(item, here)) }
        case 'quote':
          return { ...piece, children: linkProse(piece.children, here) }
        case 'table':
          return {
            ...piece,
            head: piece.head.map((cell) => linkInlines(cell, here)),
            rows: piece.rows.map((row) => row.map((cell) => linkInlines(cell, here))),
          }
        case 'figure':
          return piece
      }
    })

  const linkText = (text: StepText, here: Here): StepText => {
    const inlines = linkInlines(text.inlines, here)
    return { ...text, inlines, plain: plainText(inlines) }
  }

  const linkKeep = (keep: Keep, here: Here): Keep => ({
    ...keep,
    through: keep.through && (link(keep.through, here, keep.at)[0] ?? null),
  })

  /** `hold: { supervisor: cord-manned }` names the step whose hold says it, by id or number; what has a blank in it is the sentence. */
  const linkExposed = (exposed: Exposed, here: Here): Exposed => ({
    ...exposed,
    agreedBy: exposed.agreedBy.map((agreed) => {
      if (!isName(agreed.says)) return agreed
      const target = find(agreed.says, here)
      const step = order.find(({ id, number }) => id === target?.id || number === agreed.says)
      if (step === undefined) {
        report(agreed.says, exposed.at)
        return agreed
      }
      const hold = step.holds.find(({ role }) => role === agreed.name)
      if (hold !== undefined) return { ...agreed, says: hold.says }
      const role = agreed.name.replaceAll('-', ' ')
      findings.push(
        found(unknownTarget, {
          at: exposed.at,
          message: `Step ${step.number} ("${agreed.says}") has no hold of the ${role}, so nobody signs there for this exposure.`,
          advice: `Give step ${step.number} a hold of the ${role}, or name the step that has one.`,
        }),
      )
      return agreed
    }),
  })

  const linkOnly = <Thing extends { readonly only: Step['only'] }>(thing: Thing): Thing => {
    if (thing.only === null || thing.only.variant !== '') return thing
    const { values: chosen } = thing.only
    const variant = variants.find((candidate) => chosen.some((value) => candidate.values.includes(value)))
    return { ...thing, only: { ...thing.only, variant: variant?.name ?? '' } }
  }

  const linkStep = (step: Step): Step => {
    const here = { suffix: suffixOf(step.id), step }
    return linkOnly({
      ...step,
      text: linkText(step.text, here),
      acts: step.acts.map((act) => ({ ...act, text: linkText(act.text, here) })),
      details: linkProse(step.details, here),
      consequences: step.consequences.map((consequence) => linkConsequence(consequence, here)),
      decide: step.decide && linkDecide(step.decide, here),
      redoes: step.redoes.flatMap((target) => link(target, here, step.at)),
      keeps: step.keeps.map((keep) => linkKeep(keep, here)),
      exposed: step.exposed.map((exposed) => linkExposed(exposed, here)),
      torques: step.torques.map(linkOnly),
      readings: step.readings.map(linkOnly),
      steps: step.steps.map(linkStep),
    })
  }

  const linkPhase = (phase: Phase): Phase => {
    const here = { suffix: suffixOf(phase.id), step: null }
    return linkOnly({
      ...phase,
      prose: linkProse(phase.prose, here),
      until: phase.until && {
        ...phase.until,
        otherwise: phase.until.otherwise && linkConsequence(phase.until.otherwise, here),
      },
      keeps: phase.keeps.map((keep) => linkKeep(keep, here)),
      exposed: phase.exposed.map((exposed) => linkExposed(exposed, here)),
      steps: phase.steps.map(linkStep),
    })
  }

  return {
    ...parts,
    purpose: linkProse(parts.purpose, { suffix: '', step: null }),
    phases: parts.phases.map(linkPhase),
  }
}

/** `cord-manned`, `#cord-manned` or `2.3`: a sentence has blanks, and a word alone is no name of a step. */
function isName(text: string): boolean {
  return /^(?:#\S+|\d+[A-Z]?\.\d+[a-z]?|[a-z\d]+(?:-[a-z\d]+)+)$/.test(text)
}

export function suffixOf(id: string): string {
  return id.includes('@') ? id.slice(id.indexOf('@') + 1) : ''
}

export function allSteps(steps: readonly Step[]): readonly Step[] {
  return steps.flatMap((step) => [step, ...allSteps(step.steps)])
}

/** What `[=name]` prints: the limit of a reading or torque, in every printed unit. */
function valuesOf(steps: readonly Step[]): ReadonlyMap<string, string> {
  const values = new Map<string, string>()
  for (const step of steps) {
    for (const torque of step.torques) values.set(torque.id.split('@')[0] ?? '', torque.limit.text)
    for (const reading of step.readings) if (reading.limit) values.set(reading.name, reading.limit.text)
  }
  return values
}
