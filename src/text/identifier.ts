/** An id made from words: `Chalk the side on the rim` → `chalk-the-side-on-the-rim`, cut at eight words. */
export function identifierFrom(words: string): string {
  const plain = words
    .normalize('NFKD')
    .replace(/\p{M}/gu, '')
    .toLowerCase()
    .replace(/[^\p{L}\p{N}]+/gu, '-')
    .replace(/^-+|-+$/g, '')
  return plain.split('-').slice(0, 8).join('-') || 'unnamed'
}
