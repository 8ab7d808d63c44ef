import { isAbsolute, join, relative, sep } from 'node:path'
import type { Finding } from '../../findings/finding.ts'
import type { Place } from '../../text/place.ts'
import type { SourceText } from '../../text/source-text.ts'

/** A path as people see it: relative to where the command runs, with forward slashes; absolute where it lies elsewhere. */
export function shownPath(path: string, folder: string): string {
  const way = relative(folder, path)
  if (way === '') return '.'
  const shown = way === '..' || way.startsWith(`..${sep}`) || isAbsolute(way) ? path : way
  return shown.split(sep).join('/')
}

/** A finding whose places are paths of a library, with the paths that people see. */
export function shownFinding(finding: Finding, root: string, folder: string): Finding {
  const shown = (at: Place): Place => ({ ...at, file: shownPath(join(root, at.file), folder) })
  const { related, story, edit } = finding
  return {
    ...finding,
    at: shown(finding.at),
    ...(related ? { related: related.map((place) => ({ ...place, at: shown(place.at) })) } : {}),
    ...(story ? { story: story.map((place) => ({ ...place, at: shown(place.at) })) } : {}),
    ...(edit
      ? { edit: { ...edit, changes: edit.changes.map((change) => ({ ...change, at: shown(change.at) })) } }
      : {}),
  }
}

export function shownSource(source: SourceText, root: string, folder: string): SourceText {
  return { ...source, path: shownPath(join(root, source.path), folder) }
}
