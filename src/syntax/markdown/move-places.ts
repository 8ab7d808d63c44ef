/**
 * The same value with every place moved `by` offsets and into `file`.
 * A stretch of text is read as if it stood alone, so that the result can be kept for as long as its words stay the same.
 */
export function movePlaces<T>(value: T, file: string, by: number): T {
  return moved(value, file, by) as T
}

function moved(value: unknown, file: string, by: number): unknown {
  if (Array.isArray(value)) return value.map((item) => moved(item, file, by))
  if (typeof value !== 'object' || value === null) return value
  const copy: Record<string, unknown> = {}
  for (const [key, part] of Object.entries(value)) {
    if (typeof part === 'number') copy[key] = isOffset(key) ? part + by : part
    else copy[key] = key === 'file' && 'start' in value ? file : moved(part, file, by)
  }
  return copy
}

/** The same value with the offsets of every place in `file` put another way. */
export function mapPlaces<T>(value: T, file: string, offset: (before: number) => number): T {
  return mapped(value, file, offset) as T
}

function mapped(value: unknown, file: string, offset: (before: number) => number): unknown {
  if (Array.isArray(value)) return value.map((item) => mapped(item, file, offset))
  if (typeof value !== 'object' || value === null) return value
  if ('file' in value && 'start' in value && 'end' in value)
    return value.file === file ? { file, start: offset(Number(value.start)), end: offset(Number(value.end)) } : value
  const copy: Record<string, unknown> = Object.create(Object.getPrototypeOf(value))
  for (const [key, part] of Object.entries(value)) copy[key] = mapped(part, file, offset)
  return copy
}

function isOffset(key: string): boolean {
  return key === 'start' || key === 'end' || key === 'contentStart'
}
