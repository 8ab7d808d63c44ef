import { type Compiled, compileProcedure, openLibrary } from '../src/compile.ts'
import type { StepFile } from '../src/step-file/step-file.ts'
import { mapLibrary } from './map-library.ts'

const FRONT = `---
number: KRQ-TX-001
title: Change a return idler
revision: A
status: for-review
date: 2026-03-02
`

/** A procedure with ordinary front matter around the text given. */
export function procedureText(body: string, front = ''): string {
  return `${FRONT}${front}---\n\n${body}`
}

export function compileText(body: string, files: Readonly<Record<string, string>> = {}, front = ''): Compiled {
  const file = 'procedures/example/example.md'
  return compileProcedure(file, openLibrary(mapLibrary({ [file]: procedureText(body, front), ...files })))
}

/** The step file of a text that must compile; its errors are the message where it does not. */
export function stepFileOf(body: string, files: Readonly<Record<string, string>> = {}, front = ''): StepFile {
  const { stepFile, findings } = compileText(body, files, front)
  if (stepFile === null)
    throw new Error(findings.map((finding) => `${finding.name}: ${finding.message}`).join('\n') || 'no step file')
  return stepFile
}
