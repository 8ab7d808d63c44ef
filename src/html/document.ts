import { sha256 } from '@noble/hashes/sha2.js'
import { base64 } from './base64.ts'
import { fillTemplate } from './fill-template.ts'

export interface DocumentParts {
  /** BCP 47. */
  readonly language: string
  readonly title: string
  /** Filled by templates: every text in it is escaped already. */
  readonly body: string
  /** Of `templates/styles/`, one after the other. */
  readonly style: string
  /** A bundle of ours, or null for a page that needs none. */
  readonly script: string | null
  /** Handed to the script as JSON, or null. */
  readonly data: unknown
}

/**
 * One HTML file that works alone: style and script stand in it, and its content security policy lets nothing else
 * be loaded, run or sent. Script and style are named by their SHA-256 (CSP level 3, "hash-source").
 */
export function htmlDocument(parts: DocumentParts): string {
  return fillTemplate('frame/document', {
    language: parts.language,
    title: parts.title,
    policy: contentPolicy(parts.style, parts.script),
    style: parts.style,
    body: parts.body,
    data: parts.data === null ? null : scriptSafeJson(parts.data),
    script: parts.script,
  })
}

function contentPolicy(style: string, script: string | null): string {
  return [
    "default-src 'none'",
    `style-src ${hashSource(style)}`,
    `script-src ${script === null ? "'none'" : hashSource(script)}`,
    'img-src data:',
    "base-uri 'none'",
    "form-action 'none'",
    "require-trusted-types-for 'script'",
    "trusted-types 'none'",
  ].join('; ')
}

function hashSource(text: string): string {
  return `'sha256-${base64(sha256(new TextEncoder().encode(text)))}'`
}

/** JSON that cannot end the script element it stands in, whatever an author wrote. */
function scriptSafeJson(value: unknown): string {
  return JSON.stringify(value).replace(
    /[<>&\u2028\u2029]/g,
    (letter) => `\\u${letter.charCodeAt(0).toString(16).padStart(4, '0')}`,
  )
}
