import { describe, expect, it } from 'vitest'
import type { StepFile } from '../../src/step-file/step-file.ts'
import { stepFileOf } from '../compile-text.ts'

const edges = ({ graph }: StepFile): string[] =>
  graph.edges.map((edge) => `${edge.from} -${edge.kind}${edge.atMost === null ? '' : edge.atMost}-> ${edge.to}`)

describe('what can follow what', () => {
  it('leads a redo back to the reading, not on through the phase', () => {
    const stepFile = stepFileOf(`
## Bleed {#bleed}

1. Pump the pedal. {#pump}
2. Wait. {#wait}
3. Read the gauge. {#read}
   \`\`\`yaml
   measure: { pressure: max 0.5 MPa }
   else: { redo: pump, at-most: 3, then: stop }
   \`\`\`
4. Open the hose. {#open}
`)
    expect(edges(stepFile)).toEqual([
      '(start) -next-> phase:bleed',
      'phase:bleed -next-> pump',
      'pump -next-> wait',
      'wait -next-> read',
      'pump~read -next-> read',
      'read -redo3-> pump~read',
      expect.stringMatching(/^read -stop-> stop:read:\d+$/),
      'read -next-> open',
      'open -next-> (end)',
    ])
  })

  it('joins the ways of a decision behind the branches, passes by what has a condition, and goes round a repeat', () => {
    const stepFile = stepFileOf(`
## Look {#look}

1. Choose. {#choose}
   \`\`\`yaml
   decide:
     ask: Which one?
     branches:
       - { answer: old, go: old }
       - { answer: new, go: continue }
   \`\`\`

### The old one {#old}

1. Clean it. {#clean}

## Set {#set}

\`\`\`yaml
repeat: { until: gap in limit, at-most: 3, else: stop }
\`\`\`

1. Turn the screw. {#turn}
2. Read the gap. {#gap-read}
   \`\`\`yaml
   measure: { gap: 2 to 3 mm }
   \`\`\`
`)
    const all = edges(stepFile)
    expect(all).toContain('choose -branch-> phase:old')
    expect(all).toContain('choose -branch-> phase:set')
    expect(all).toContain('clean -next-> phase:set')
    expect(all).toContain('gap-read -again3-> phase:set')
    expect(all).toContain('gap-read -next-> (end)')
    expect(all.some((edge) => edge.startsWith('gap-read -stop-> stop:'))).toBe(true)
  })

  it('has no edge to or from a node that is not there', () => {
    const { graph } = stepFileOf('## Look {#look}\n\n1. Look at the idler.\n')
    const ids = new Set(graph.nodes.map((node) => node.id))
    for (const edge of graph.edges) expect([ids.has(edge.from), ids.has(edge.to)]).toEqual([true, true])
  })
})
