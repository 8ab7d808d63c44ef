import { readFileSync } from 'node:fs'
import { join, posix } from 'node:path'
import { globSync } from 'tinyglobby'

export const root = join(import.meta.dirname, '../..')

/** Paths from the root with forward slashes, sorted, so that a failure reads the same everywhere. */
export function filesMatching(patterns: string | readonly string[]): readonly string[] {
  return globSync([...[patterns].flat()], {
    cwd: root,
    dot: true,
    ignore: ['node_modules/**', 'out/**', '.git/**'],
  }).sort()
}

export function textOf(path: string): string {
  return readFileSync(join(root, path), 'utf8')
}

/** Everything that is compiled, build scripts excepted. */
export const sourceFiles: readonly string[] = filesMatching('src/**/*.{ts,mts,mjs,js}').filter(
  (path) => !path.startsWith('src/build/') && !path.endsWith('.d.ts'),
)

/** Code without comments, so that a comment may name what the code must not use. */
export function withoutComments(code: string): string {
  return code.replace(
    /("(?:\\.|[^"\\\n])*"|'(?:\\.|[^'\\\n])*')|\/\*[\s\S]*?\*\/|(^|[\s;{}(,])\/\/[^\n]*/g,
    (_, quoted: string | undefined, before: string | undefined) => quoted ?? before ?? '',
  )
}

const importPattern =
  /(?:^|[\s;])(?:import|export)\s+(?:type\s+)?(?:[\w$*{}\s,]+?\s+from\s*)?['"]([^'"]+)['"]|\bimport\(\s*['"]([^'"]+)['"]\s*\)/g

/** What a file imports, type imports included, as typed. */
export function importsOf(code: string): readonly string[] {
  return [...withoutComments(code).matchAll(importPattern)].map((match) => match[1] ?? match[2] ?? '')
}

/** Files of `src/` that each file imports. */
export function importGraph(): ReadonlyMap<string, readonly string[]> {
  return new Map(
    sourceFiles.map((path) => [
      path,
      importsOf(textOf(path))
        .filter((typed) => typed.startsWith('.'))
        .map((typed) => posix.join(posix.dirname(path), typed)),
    ]),
  )
}
