import type { Place } from '../text/place.ts'
import type { SourceText } from '../text/source-text.ts'
import type { Edit, Finding, Severity, StoryPlace } from './finding.ts'
import { type LocatedPlace, locator } from './located.ts'

export interface SarifTool {
  readonly version: string
  /** The page of each kind of finding, by name, as Markdown. */
  readonly pages: Readonly<Record<string, string>>
}

const levels: { readonly [severity in Severity]: string } = { error: 'error', warning: 'warning', advice: 'note' }

/**
 * Findings as a SARIF 2.1.0 log (OASIS standard), as JSON text that ends with a line end.
 * Paths stay relative to the folder the command ran in (`%SRCROOT%`); columns count UTF-16 units.
 */
export function asSarif(findings: readonly Finding[], sources: readonly SourceText[], tool: SarifTool): string {
  const locate = locator(sources)
  const names = [...new Set(findings.map((finding) => finding.name))].sort()
  const log = {
    $schema: 'https://json.schemastore.org/sarif-2.1.0.json',
    version: '2.1.0',
    runs: [
      {
        tool: {
          driver: {
            name: 'witnessmark',
            semanticVersion: tool.version,
            rules: names.map((name) => rule(name, findings, tool.pages)),
          },
        },
        columnKind: 'utf16CodeUnits',
        results: findings.map((finding) => result(finding, names.indexOf(finding.name), locate)),
      },
    ],
  }
  return `${JSON.stringify(log, null, 2)}\n`
}

function rule(name: string, findings: readonly Finding[], pages: SarifTool['pages']) {
  const severity = findings.find((finding) => finding.name === name)?.severity ?? 'error'
  const page = Object.hasOwn(pages, name) ? pages[name] : undefined
  const explained =
    page === undefined ? {} : { fullDescription: { text: whatAndWhy(page) }, help: { text: page, markdown: page } }
  return { id: name, ...explained, defaultConfiguration: { level: levels[severity] } }
}

/** The paragraph under the heading of a page. */
function whatAndWhy(page: string): string {
  const paragraph = page.replace(/^# .*\n+/, '').split(/\n\s*\n/)[0] ?? ''
  return paragraph.replace(/\s*\n\s*/g, ' ').trim()
}

function result(finding: Finding, ruleIndex: number, locate: (at: Place) => LocatedPlace) {
  const related = finding.related ?? []
  return {
    ruleId: finding.name,
    ruleIndex,
    level: levels[finding.severity],
    message: { text: `${finding.message}\n${finding.advice}` },
    locations: [location(locate(finding.at))],
    ...(related.length > 0
      ? {
          relatedLocations: related.map((place, index) => ({
            id: index + 1,
            ...location(locate(place.at)),
            message: { text: place.message },
          })),
        }
      : {}),
    ...(finding.story && finding.story.length > 0 ? { codeFlows: [codeFlow(finding.story, locate)] } : {}),
    ...(finding.edit ? { fixes: [fix(finding.edit, locate)] } : {}),
  }
}

function codeFlow(story: readonly StoryPlace[], locate: (at: Place) => LocatedPlace) {
  const locations = story.map((place) => ({
    location: { ...location(locate(place.at)), message: { text: place.text } },
  }))
  return { threadFlows: [{ locations }] }
}

function location(place: LocatedPlace) {
  const region = regionOf(place)
  return { physicalLocation: { artifactLocation: artifact(place.file), ...(region ? { region } : {}) } }
}

function regionOf({ range }: LocatedPlace) {
  if (range === null) return null
  return {
    startLine: range.start.line,
    startColumn: range.start.column,
    endLine: range.end.line,
    endColumn: range.end.column,
  }
}

/** A path as a URI reference; an absolute path has no root to be relative to. */
function artifact(file: string) {
  const path = file.split('/').map(encodeURIComponent).join('/')
  if (file.startsWith('/')) return { uri: `file://${path}` }
  return { uri: path, uriBaseId: '%SRCROOT%' }
}

function fix(edit: Edit, locate: (at: Place) => LocatedPlace) {
  const files = [...new Set(edit.changes.map((change) => change.at.file))]
  return {
    description: { text: edit.title },
    artifactChanges: files.map((file) => ({
      artifactLocation: artifact(file),
      replacements: edit.changes
        .filter((change) => change.at.file === file)
        .map((change) => ({
          deletedRegion: regionOf(locate(change.at)) ?? { startLine: 1 },
          ...(change.newText === '' ? {} : { insertedContent: { text: change.newText } }),
        })),
    })),
  }
}
