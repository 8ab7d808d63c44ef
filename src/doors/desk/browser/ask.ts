/** Every address is relative to the page's own, which carries the token. */
export async function fetchJson<Answer>(path: string): Promise<Answer | null> {
  const response = await fetch(path)
  return response.ok ? ((await response.json()) as Answer) : null
}

export async function fetchText(path: string): Promise<string | null> {
  const response = await fetch(path)
  return response.ok ? await response.text() : null
}

/** Null where the server gives nothing; rejects where there is no server any more. */
export async function ask<Answer>(what: string, fields: Readonly<Record<string, unknown>>): Promise<Answer | null> {
  const response = await fetch(what, {
    method: 'POST',
    headers: { 'Content-Type': 'application/json' },
    body: JSON.stringify(fields),
  })
  return response.ok ? ((await response.json()) as Answer) : null
}

/** `page?file=…`. */
export function withFile(path: string, file: string, more = ''): string {
  return `${path}?file=${encodeURIComponent(file)}${more}`
}
