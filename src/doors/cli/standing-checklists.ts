import { readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { OutputFile } from '../../devices/write-output.ts'
import { isChecklistFile } from '../../outputs/checklist/print-choices.ts'

/** Checklists in a folder, those for one machine and those to fill in included. */
export function checklistsIn(folder: string): readonly string[] {
  try {
    return readdirSync(folder).filter(isChecklistFile)
  } catch {
    return []
  }
}

/**
 * Checklists that an earlier build left in a folder and that no longer say what the document says. Those made from the very
 * same step file stay: the print for another machine is as good as the one made now.
 */
export function staleChecklists(folder: string, made: readonly OutputFile[]): readonly string[] {
  const steps = made.find(({ name }) => name === 'steps.json')?.content
  return standingSteps(folder) === steps ? [] : checklistsIn(folder)
}

function standingSteps(folder: string): string | null {
  try {
    return readFileSync(join(folder, 'steps.json'), 'utf8')
  } catch {
    return null
  }
}
