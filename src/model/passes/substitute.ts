import type { BlockNode, MapNode } from '../../syntax/block-node.ts'
import type { Inline, Prose } from '../../syntax/prose.ts'
import type { WrittenBlock, WrittenPhase, WrittenStep } from '../../syntax/written.ts'
import { oncePer } from '../../text/once-per.ts'

/** Parameters of a fragment, or the columns of a repeated row: `(=name)` in text and in block values. */
export type Parameters = ReadonlyMap<string, string>

const PARAMETER = /\(=([\p{L}\p{N}_-]+)\)/gu

/** `Lock (=isolator).` → `Lock battery-isolator.` A name that is no parameter stays as typed. */
export function substituteText(text: string, parameters: Parameters): string {
  if (!text.includes('(=')) return text
  return text.replace(PARAMETER, (whole, name: string) => parameters.get(name) ?? whole)
}

/** The names of the parameters that a text still asks for. */
export function parametersIn(text: string): readonly string[] {
  return [...text.matchAll(PARAMETER)].map((match) => match[1] ?? '')
}

export function substituteNode<Node extends BlockNode>(node: Node, parameters: Parameters): Node
export function substituteNode(node: BlockNode, parameters: Parameters): BlockNode {
  if (node.kind === 'scalar') {
    const text = substituteText(node.text, parameters)
    // The source is no verbatim copy of a substituted text.
    return text === node.text ? node : { ...node, text, contentStart: null }
  }
  if (node.kind === 'list') return { ...node, items: node.items.map((item) => substituteNode(item, parameters)) }
  return substituteMap(node, parameters)
}

function substituteMap(map: MapNode, parameters: Parameters): MapNode {
  return {
    ...map,
    entries: map.entries.map((entry) => ({
      ...entry,
      key: substituteText(entry.key, parameters),
      value: substituteNode(entry.value, parameters),
    })),
  }
}

export function substituteInlines(inlines: readonly Inline[], parameters: Parameters): readonly Inline[] {
  return inlines.map((inline): Inline => {
    switch (inline.kind) {
      case 'text':
      case 'code':
        return { ...inline, text: substituteText(inline.text, parameters) }
      case 'strong':
      case 'emphasis':
      case 'link':
      case 'reference':
        return { ...inline, children: substituteInlines(inline.children, parameters) }
      case 'break':
      case 'value':
        return inline
    }
  })
}

export function substituteProse(prose: readonly Prose[], parameters: Parameters): readonly Prose[] {
  return prose.map((piece): Prose => {
    switch (piece.kind) {
      case 'paragraph':
        return { ...piece, children: substituteInlines(piece.children, parameters) }
      case 'list':
        return { ...piece, items: piece.items.map((item) => substituteProse(item, parameters)) }
      case 'table':
        return {
          ...piece,
          head: piece.head.map((cell) => substituteInlines(cell, parameters)),
          rows: piece.rows.map((row) => row.map((cell) => substituteInlines(cell, parameters))),
        }
      case 'quote':
        return { ...piece, children: substituteProse(piece.children, parameters) }
      case 'figure':
        return {
          ...piece,
          alt: substituteText(piece.alt, parameters),
          caption: substituteText(piece.caption, parameters),
        }
    }
  })
}

function substituteBlock(block: WrittenBlock | null, parameters: Parameters): WrittenBlock | null {
  return block && { ...block, map: substituteMap(block.map, parameters) }
}

export function substituteStep(step: WrittenStep, parameters: Parameters): WrittenStep {
  if (parameters.size === 0) return step
  const known = passesOfStep(step)
  const key = JSON.stringify([...parameters])
  const filled = known.get(key) ?? filledStep(step, parameters)
  known.set(key, filled)
  return filled
}

const passesOfStep = oncePer((_: WrittenStep): Map<string, WrittenStep> => new Map())

function filledStep(step: WrittenStep, parameters: Parameters): WrittenStep {
  return {
    ...step,
    roles: step.roles.map((role) => ({ ...role, name: substituteText(role.name, parameters) })),
    text: substituteInlines(step.text, parameters),
    markdown: substituteText(step.markdown, parameters),
    acts: step.acts.map((act) => ({
      ...act,
      roles: act.roles.map((role) => ({ ...role, name: substituteText(role.name, parameters) })),
      text: substituteInlines(act.text, parameters),
      markdown: substituteText(act.markdown, parameters),
    })),
    details: substituteProse(step.details, parameters),
    block: substituteBlock(step.block, parameters),
    steps: step.steps.map((sub) => substituteStep(sub, parameters)),
  }
}

export function substitutePhase(phase: WrittenPhase, parameters: Parameters): WrittenPhase {
  if (parameters.size === 0) return phase
  const known = passesOfPhase(phase)
  const key = JSON.stringify([...parameters])
  const filled = known.get(key) ?? filledPhase(phase, parameters)
  known.set(key, filled)
  return filled
}

/** A phase that is not written anew comes out as the same value again. */
const passesOfPhase = oncePer((_: WrittenPhase): Map<string, WrittenPhase> => new Map())

function filledPhase(phase: WrittenPhase, parameters: Parameters): WrittenPhase {
  return {
    ...phase,
    title: substituteText(phase.title, parameters),
    prose: substituteProse(phase.prose, parameters),
    block: substituteBlock(phase.block, parameters),
    steps: phase.steps.map((step) => substituteStep(step, parameters)),
    branches: phase.branches.map((branch) => substitutePhase(branch, parameters)),
  }
}
