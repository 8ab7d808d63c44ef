import type { GraphEdge } from '../../src/model/graph.ts'
import type { Procedure, Step, Whereabouts } from '../../src/model/procedure.ts'
import type { Claim } from '../../src/model/states.ts'

/** A procedure as a process for the model checker spin, and what its numbered marks mean. */
export interface Promela {
  readonly text: string
  /** `zone pit/power`, `proof pit/power`, `never a+b`, `left door`; each bears the number at its place. */
  readonly marks: readonly string[]
}

/**
 * Only what can be said in a few lines of Promela: zones and their proofs, bans, and what is put back.
 * Null for procedures with more: conditions on readings, variants, work at the same time, repeats, ages of proofs.
 */
export function promelaOf(procedure: Procedure, number: number, firstMark: number): Promela | null {
  const { phases, states, zones, graph } = procedure
  const steps = phases.flatMap((phase) => phase.steps)
  const isTooMuch =
    procedure.document.variants.length > 0 ||
    phases.some((phase) => phase.together || phase.until !== null || phase.when !== null) ||
    steps.some((step) => step.when !== null || step.only !== null || step.acts.length > 0 || step.steps.length > 0) ||
    graph.edges.some((edge) => edge.when !== null) ||
    (states.some((state) => state.lapses !== null) && steps.some((step) => step.waiting.length > 0))
  if (isTooMuch) return null

  const marks: string[] = []
  const mark = (what: string): string => {
    if (!marks.includes(what)) marks.push(what)
    const id = firstMark + marks.indexOf(what)
    return `c_code { if (!told[${id}]) { told[${id}] = 1; printf("TOLD ${id}\\n"); } }`
  }
  const roles = procedure.roles.map((role) => role.id)
  const proved = states.filter((state) => state.provedBy.length > 0)
  const name = (prefix: string, ...ids: readonly string[]): string =>
    `${prefix}_${ids.join('_').replaceAll(/[^A-Za-z0-9_]/g, '_')}`
  const value = (state: string, text: string): number => {
    const values = ['unknown', ...(states.find((candidate) => candidate.id === state)?.values ?? [])]
    return values.indexOf(text)
  }
  const among = (claim: Pick<Claim, 'state' | 'values'>): string =>
    `(${claim.values.map((text) => `${name('v', claim.state)} == ${value(claim.state, text)}`).join(' || ')})`
  const when = (condition: string, then: string): string => `if :: (${condition}) -> ${then} :: else -> skip fi;`

  const look = (): readonly string[] => [
    ...roles.flatMap((role) =>
      zones.flatMap((zone) =>
        zone.safeWhen.flatMap((claim) => {
          const inside = `${name('z', role, zone.id)} == 1`
          const wrong = when(`${inside} && !${among(claim)}`, mark(`zone ${zone.id}/${claim.state}`))
          const proof = when(
            `${inside} && ${among(claim)} && ${name('p', claim.state)} == 0`,
            mark(`proof ${zone.id}/${claim.state}`),
          )
          return proved.some((state) => state.id === claim.state) ? [wrong, proof] : [wrong]
        }),
      ),
    ),
    ...procedure.never.map((never) =>
      when(
        never.when.map(among).join(' && '),
        mark(
          `never ${never.when
            .map((claim) => claim.state)
            .sort()
            .join('+')}`,
        ),
      ),
    ),
  ]
  const isLookedAt = (state: string): boolean =>
    [...zones.flatMap((zone) => zone.safeWhen), ...procedure.never.flatMap((never) => never.when)].some(
      (claim) => claim.state === state,
    )
  const change = (state: string, text: string): readonly string[] => {
    const to = value(state, text)
    if (to < 0) return []
    const spend = proved.some((one) => one.id === state) ? `${name('p', state)} = 0; ` : ''
    return [
      when(`${name('v', state)} != ${to}`, `${spend}${name('v', state)} = ${to}`),
      ...(isLookedAt(state) ? look() : []),
    ]
  }
  const move = (where: readonly Whereabouts[], actors: readonly string[]): readonly string[] =>
    where.flatMap((one) =>
      (one.role === null ? actors : [one.role]).flatMap((role) =>
        zones.map((zone) => `${name('z', role, zone.id)} = ${one.zones.includes(zone.id) ? 1 : 0};`),
      ),
    )
  const prove = (step: Step): readonly string[] =>
    step.proves.flatMap((claim) => {
      const state = proved.find((candidate) => candidate.id === claim.state)
      const isSigned = step.holds.some(
        ({ kind, timing, role }) =>
          (kind === 'hold' || kind === 'verify') && timing === 'after' && state?.provedBy.includes(role),
      )
      const isRead =
        state?.provedBy.includes('reading') && step.readings.some((one) => one.kind === 'measure' && one.limit)
      const isTried = state?.provedBy.includes('test') && step.readings.some((one) => one.kind === 'check')
      if (state === undefined || !(isSigned || isRead || isTried)) return []
      const known = when(
        `${name('v', state.id)} == 0`,
        `${name('v', state.id)} = ${value(state.id, claim.values[0] ?? '')}`,
      )
      return [known, when(among(claim), `${name('p', state.id)} = 1`)]
    })
  const things = (list: Step['removes'], to: string): readonly string[] => list.flatMap((thing) => change(thing.id, to))

  const edgesFrom = (node: string): readonly GraphEdge[] => graph.edges.filter((edge) => edge.from === node)
  const ways = [...new Set(graph.edges.flatMap((edge) => edge.way ?? []))]
  const mostOf = (way: string): number => graph.edges.find((edge) => edge.way === way)?.atMost ?? 1
  const usedUp = (way: string): string => `${name('t', way)} >= ${mostOf(way) - 1}`
  const label = (node: string): string => `n${graph.nodes.findIndex((candidate) => candidate.id === node)}`
  const leaveBy = (node: string, edges: readonly GraphEdge[], more: readonly string[] = []): string => {
    const own = [...new Set(edgesFrom(node).flatMap((edge) => edge.way ?? []))]
    const options = edges.map((edge) => {
      const guards = [
        ...(edge.usedUp === null ? [] : [`(${usedUp(edge.usedUp)})`]),
        ...(edge.way === null ? [] : [`!(${usedUp(edge.way)})`]),
      ]
      const counts = edge.way === null ? own.map((way) => `${name('t', way)} = 0; `) : [`${name('t', edge.way)}++; `]
      return `:: ${guards.join(' && ') || 'true'} -> ${counts.join('')}goto ${label(edge.to)}`
    })
    return `if ${[...options, ...more].join(' ')} fi;`
  }
  const outcome = (step: Step, node: string): readonly string[] => {
    const passed = edgesFrom(node).filter((edge) => edge.outcome === 'passed')
    const failed = edgesFrom(node).filter((edge) => edge.outcome === 'failed')
    const goBack = step.enters.length > 0 ? restored() : []
    const back = [...goBack, ...(goBack.length > 0 || step.proves.length > 0 ? look() : [])]
    const passing = [...prove(step), ...back, leaveBy(node, passed)].join(' ')
    if (!step.readings.some((one) => one.kind === 'check' || one.limit !== null)) return [passing]
    const endless = failed.filter((edge) => edge.way !== null && !failed.some((other) => other.usedUp === edge.way))
    const onward = endless.flatMap((edge) =>
      passed.map((next) => `:: (${usedUp(edge.way ?? '')}) -> goto ${label(next.to)}`),
    )
    const failing = [...back, leaveBy(node, failed.length === 0 ? passed : failed, onward)].join(' ')
    return [`if :: true -> ${passing} :: true -> ${failing} fi;`]
  }
  const saved = (): readonly string[] =>
    eachPlace().map(([role, zone]) => `${name('s', role, zone)} = ${name('z', role, zone)};`)
  const restored = (): readonly string[] =>
    eachPlace().map(([role, zone]) => `${name('z', role, zone)} = ${name('s', role, zone)};`)
  const eachPlace = (): readonly (readonly [string, string])[] =>
    roles.flatMap((role) => zones.map((zone) => [role, zone.id] as const))

  const stepLines = (step: Step, node: string): readonly string[] => [
    ...step.clear.flatMap((zone) => roles.map((role) => `${name('z', role, zone)} = 0;`)),
    ...move(step.where, step.by),
    ...(step.enters.length > 0 ? [...saved(), ...move(step.enters, step.by)] : []),
    ...look(),
    ...things(step.removes, 'removed'),
    ...things(step.locks, 'locked'),
    ...things(step.putsOn, 'on'),
    ...step.sets.flatMap((set) => set.values.flatMap((text) => change(set.state, text))),
    ...things(step.snug, 'snug'),
    ...step.torques.flatMap((torque) => change(torque.name, 'final')),
    ...things(step.refits, 'fitted'),
    ...things(step.unlocks, 'unlocked'),
    ...things(step.takesOff, 'off'),
    ...outcome(step, node),
  ]
  const nodeLines = graph.nodes.flatMap((node): readonly string[] => {
    const step = steps.find((candidate) => candidate.id === node.step)
    const phase = phases.find((candidate) => candidate.id === node.phase)
    const plain = leaveBy(node.id, edgesFrom(node.id))
    if (step) return [`${label(node.id)}: skip;`, ...stepLines(step, node.id)]
    if (node.kind === 'phase' && phase) {
      const actors = [...new Set([...phase.by, ...phase.steps.flatMap((one) => one.by)])]
      return [`${label(node.id)}: skip;`, ...move(phase.where, actors), plain]
    }
    if (node.kind === 'stop') return [`${label(node.id)}: goto done;`]
    if (node.kind !== 'end') return [`${label(node.id)}: skip;`, plain]
    const left = states
      .filter((state) => !state.values.includes('snug') && !state.values.includes('locked'))
      .map((state) => when(`!${among({ state: state.id, values: state.end })}`, mark(`left ${state.id}`)))
    return [`${label(node.id)}: skip;`, ...left, 'goto done;']
  })
  const declarations = [
    ...states.map((state) => `byte ${name('v', state.id)} = ${value(state.id, state.start)};`),
    ...proved.map((state) => `bit ${name('p', state.id)} = 0;`),
    ...eachPlace().flatMap(([role, zone]) => [
      `bit ${name('z', role, zone)} = 0;`,
      `bit ${name('s', role, zone)} = 0;`,
    ]),
    ...ways.map((way) => `byte ${name('t', way)} = 0;`),
  ]
  const text = [
    `proctype job${number}() {`,
    ...declarations,
    `goto ${label(graph.start)};`,
    ...nodeLines,
    'done: skip',
    '}',
  ].join('\n')
  return { text, marks }
}

/** One model of which spin works exactly one job, whichever it likes. */
export function modelOf(jobs: readonly Promela[]): string {
  const marks = jobs.reduce((sum, job) => sum + job.marks.length, 0)
  const choices = jobs.map((_, number) => `:: run job${number}()`)
  return [
    `c_decl { static char told[${marks + 1}]; }`,
    ...jobs.map((job) => job.text),
    `init { if ${choices.join(' ')} fi }`,
    '',
  ].join('\n\n')
}
