import type { StepFile } from '../../src/step-file/step-file.ts'
import { stepFileOf } from '../compile-text.ts'

/** A step with this block, in a document that says what hangs and where nobody may be. */
export function loadText(gear: string, block: string): string {
  return `\`\`\`yaml
roles:
  rigger:   { who: slinger }
states:
  load: { values: [down, hung], start: down, end: down, energy: gravity, safe: down }
zones:
  below-load: { what: below the load, safe-when: { load: down } }
gear:
${indented(gear, '  ')}
\`\`\`

## Lift {#lift}

\`\`\`yaml
by: rigger
where: out
\`\`\`

1. Take the load up.
   \`\`\`yaml
   sets: { load: hung }
${indented(block, '   ')}
   \`\`\`
2. Set the load down.
   \`\`\`yaml
   sets: { load: down }
   \`\`\`
`
}

export type Working = StepFile['phases'][number]['steps'][number]['workings'][number]

export function workingsOf(gear: string, block: string): readonly Working[] {
  return stepFileOf(loadText(gear, block)).phases[0]?.steps[0]?.workings ?? []
}

/** Figures by name, with their units. */
export function figuresOf(working: Working | undefined): Readonly<Record<string, string>> {
  return Object.fromEntries((working?.figures ?? []).map(({ name, value, unit }) => [name, `${value} ${unit}`.trim()]))
}

function indented(text: string, by: string): string {
  return text
    .trim()
    .split('\n')
    .map((line) => by + line)
    .join('\n')
}
