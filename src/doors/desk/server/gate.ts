import { createHash, timingSafeEqual } from 'node:crypto'
import type { IncomingMessage } from 'node:http'

export interface Gate {
  readonly port: number
  /** Stands first in every address of the desk. */
  readonly token: string
}

/**
 * What a request asks for behind the token (`check`, `page`), or null for one that gets nothing: without the token,
 * for another host than this one (a name made to point here), or from a page that is not the desk's own.
 */
export function askedFor(request: IncomingMessage, gate: Gate): string | null {
  const { headers, method, url = '' } = request
  const hosts = [`127.0.0.1:${gate.port}`, `localhost:${gate.port}`]
  if (headers.host === undefined || !hosts.includes(headers.host)) return null
  const origins = hosts.map((host) => `http://${host}`)
  if (headers.origin !== undefined && !origins.includes(headers.origin)) return null
  // Whatever changes something is sent by the desk's own script, and a browser then always says from where.
  if (method !== 'GET' && (method !== 'POST' || headers.origin === undefined)) return null
  const site = headers['sec-fetch-site']
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return null
  const [path = ''] = url.split('?')
  const slash = path.indexOf('/', 1)
  if (slash < 0 || !isSame(path.slice(1, slash), gate.token)) return null
  return path.slice(slash + 1)
}

/** Takes the same time wherever the two differ. */
function isSame(given: string, token: string): boolean {
  return timingSafeEqual(digest(given), digest(token))
}

function digest(text: string): Buffer {
  return createHash('sha256').update(text).digest()
}
