import { plainWords, yamlText } from './yaml-text.ts'

/** A step of a new procedure: its sentence, its id, and the lines of its block. */
export interface NewStep {
  readonly says: string
  readonly id: string
  readonly block?: readonly string[]
}

export interface NewPhase {
  readonly title: string
  readonly id: string
  readonly block: readonly string[]
  readonly steps: readonly NewStep[]
}

/** A whole procedure as text. */
export function written(
  front: readonly (readonly [key: string, value: string])[],
  title: string,
  prose: readonly string[],
  block: readonly string[],
  phases: readonly NewPhase[],
): string {
  return [
    '---',
    ...front.map(([key, value]) => `${key}: ${yamlText(value)}`),
    '---',
    '',
    `# ${plainWords(title)}`,
    '',
    ...prose.flatMap((paragraph) => [paragraph, '']),
    ...fenced(block, ''),
    ...phases.flatMap(phaseLines),
  ].join('\n')
}

function phaseLines({ title, id, block, steps }: NewPhase): readonly string[] {
  const lines = steps.flatMap((step, index) => stepLines(step, `${index + 1}. `))
  return ['', `## ${title} {#${id}}`, '', ...fenced(block, ''), '', ...lines]
}

function stepLines({ says, id, block }: NewStep, number: string): readonly string[] {
  const line = `${number}${says} {#${id}}`
  return block === undefined ? [line] : [line, ...fenced(block, ' '.repeat(number.length))]
}

function fenced(lines: readonly string[], indent: string): readonly string[] {
  return ['```yaml', ...lines, '```'].map((line) => (line === '' ? '' : indent + line))
}
