import { randomBytes } from 'node:crypto'
import { fillTemplate } from '../../../html/fill-template.ts'

/** The page that the desk is, and its content security policy (CSP level 3). */
export function shellPage(): { readonly html: string; readonly policy: string } {
  // The editor writes its own style sheets, and may do so by this.
  const nonce = randomBytes(16).toString('base64url')
  return {
    html: fillTemplate('desk/desk', { nonce }),
    policy: [
      "default-src 'none'",
      "script-src 'self'",
      `style-src 'self' 'nonce-${nonce}'`,
      "img-src 'self' data:",
      "connect-src 'self'",
      "frame-src 'self'",
      "frame-ancestors 'none'",
      "base-uri 'none'",
      "form-action 'none'",
    ].join('; '),
  }
}

/** For the page and the sheet, which stand in frames of the desk: no script of theirs runs there. */
export const framedPage = "sandbox allow-same-origin; frame-ancestors 'self'"
/** A viewer of PDFs is a page of its own and brings its style along. */
export const framedSheet = "default-src 'none'; style-src 'unsafe-inline'; object-src 'self'; frame-ancestors 'self'"
/** A picture that loads nothing and runs nothing; its letters and figures stand in it. */
export const pictureAlone = "default-src 'none'; style-src 'unsafe-inline'; img-src data:; frame-ancestors 'none'"
