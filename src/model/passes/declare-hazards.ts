import { type BlockNode, type MapNode, valueAt } from '../../syntax/block-node.ts'
import type { Place } from '../../text/place.ts'
import type { DraftPhase } from '../draft.ts'
import type { Hazard, SignalWord } from '../procedure.ts'
import { blocksOf } from './blocks-of-phase.ts'
import { entriesOf, textAt, textsAt } from './read-node.ts'

/** Items of one topic of `shared/`, by name. */
export type CatalogueItems = ReadonlyMap<string, BlockNode>

/** Hazards of the document, its phases and its steps: those defined where they stand, and those taken from the catalogue. */
export function declareHazards(
  document: MapNode | null,
  phases: readonly DraftPhase[],
  catalogue: CatalogueItems,
): readonly Hazard[] {
  const hazards = new Map<string, Hazard>()
  for (const block of [document, ...phases.flatMap(blocksOf)]) {
    const node = valueAt(block ?? undefined, 'hazards')
    for (const entry of entriesOf(node)) {
      const refers = entriesOf(entry.value).length === 0
      const definition = refers ? catalogue.get(entry.key) : entry.value
      if (definition && !hazards.has(entry.key)) hazards.set(entry.key, hazardFrom(entry.key, definition, entry.keyAt))
    }
  }
  return [...hazards.values()]
}

function hazardFrom(id: string, node: BlockNode, at: Place): Hazard {
  const severity = textAt(node, 'severity') ?? ''
  const likelihood = textAt(node, 'likelihood') ?? ''
  return {
    id,
    hazard: textAt(node, 'hazard') ?? '',
    consequence: textAt(node, 'consequence') ?? '',
    avoid: textAt(node, 'avoid') ?? '',
    severity,
    likelihood,
    signalWord: signalWordFor(severity, likelihood),
    energyClass: textAt(node, 'energy'),
    controls: textsAt(node, 'controls'),
    at,
  }
}

/**
 * The signal word by the definitions of ANSI Z535.6 (as quoted in open texts): DANGER will, WARNING could result in death or
 * serious injury; CAUTION could result in minor or moderate injury; NOTICE is for damage without injury.
 */
export function signalWordFor(severity: string, likelihood: string): SignalWord {
  if (severity === 'damage') return 'notice'
  if (severity === 'minor-injury') return 'caution'
  // What nobody has rated is treated as the worse of the two likely cases.
  return likelihood === 'will' ? 'danger' : 'warning'
}
