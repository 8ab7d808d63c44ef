import { valueAt } from '../syntax/block-node.ts'
import type { WrittenProcedure } from '../syntax/written.ts'
import type { Place } from '../text/place.ts'

/** Where a key's value stands in the front matter; the front matter itself, or the file's start, where it does not. */
export function placeInFrontMatter({ file, frontMatter }: WrittenProcedure, key: string): Place {
  return valueAt(frontMatter?.map, key)?.at ?? frontMatter?.at ?? { file, start: 0, end: 0 }
}
