import picocolors from 'picocolors'
import type { Painter } from '../../findings/as-text.ts'
import type { Surroundings } from './surroundings.ts'

/** Colours on a terminal, none elsewhere. Each severity is also written out, so nothing rests on colour alone. */
export function painterFor(surroundings: Surroundings): Painter {
  const colours = picocolors.createColors(surroundings.isTerminal && !surroundings.noColour)
  const bySeverity = { error: colours.red, warning: colours.yellow, advice: colours.cyan }
  return {
    severity: (severity, text) => bySeverity[severity](text),
    strong: colours.bold,
    faint: colours.dim,
  }
}
