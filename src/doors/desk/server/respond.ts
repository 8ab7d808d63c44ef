import type { IncomingMessage, ServerResponse } from 'node:http'

/** More than any procedure or figure needs (12 MB: a figure of 8 MB in base64). */
const largestBody = 12 * 1024 * 1024

const always = {
  'Cache-Control': 'no-store',
  'Cross-Origin-Opener-Policy': 'same-origin',
  'Cross-Origin-Resource-Policy': 'same-origin',
  'Referrer-Policy': 'no-referrer',
  'X-Content-Type-Options': 'nosniff',
}

/** Nothing may be loaded or run, and no other page may show it. */
const shut = "default-src 'none'; frame-ancestors 'none'; base-uri 'none'; form-action 'none'"

export function nothing(response: ServerResponse, status = 404): void {
  response.writeHead(status, { ...always, 'Content-Security-Policy': shut }).end()
}

export function send(
  response: ServerResponse,
  type: string,
  content: string | Uint8Array,
  policy: string = shut,
  status = 200,
): void {
  response.writeHead(status, { ...always, 'Content-Type': type, 'Content-Security-Policy': policy }).end(content)
}

export function sendJson(response: ServerResponse, value: unknown): void {
  send(response, 'application/json; charset=utf-8', JSON.stringify(value))
}

/** The body as JSON, or null where it is too large or is none. */
export async function jsonBody(request: IncomingMessage): Promise<Readonly<Record<string, unknown>> | null> {
  if (!/^application\/json\b/.test(request.headers['content-type'] ?? '')) return null
  const pieces: Buffer[] = []
  let size = 0
  for await (const piece of request) {
    size += piece.length
    if (size > largestBody) return null
    pieces.push(piece)
  }
  try {
    const value: unknown = JSON.parse(Buffer.concat(pieces).toString('utf8'))
    return typeof value === 'object' && value !== null && !Array.isArray(value)
      ? (value as Readonly<Record<string, unknown>>)
      : null
  } catch {
    return null
  }
}
