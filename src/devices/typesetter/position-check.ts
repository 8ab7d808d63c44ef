/** Where a part of the print came to stand: page from 1, y in points from the top of the page. */
export interface PositionMark {
  readonly what: 'phase' | 'start' | 'warning' | 'end' | 'split'
  readonly id: string
  readonly number: string
  readonly page: number
  readonly y: number
}

/**
 * What went wrong in the layout, in words; empty where all is well. A step stands on one page unless it was split on
 * purpose, its last warning on the page where it starts, and nothing stands below the body, where it would be cut off.
 */
export function layoutFaults(marks: readonly PositionMark[], bodyBottom: number): readonly string[] {
  const split = new Set(marks.filter((mark) => mark.what === 'split').map((mark) => mark.id))
  const starts = new Map(marks.filter((mark) => mark.what === 'start').map((mark) => [mark.id, mark]))
  const ends = new Set(marks.filter((mark) => mark.what === 'end').map((mark) => mark.id))
  const faults: string[] = []
  for (const mark of marks) {
    if (mark.y > bodyBottom) faults.push(`Step ${mark.number} runs below the foot of page ${mark.page}.`)
    const start = starts.get(mark.id)
    if (mark.what === 'start' && !ends.has(mark.id)) faults.push(`Step ${mark.number} has no end in print.`)
    if (!start || start.page === mark.page) continue
    if (mark.what === 'warning') faults.push(`The warning of step ${mark.number} stands on another page than the step.`)
    if (mark.what === 'end' && !isInside(mark.id, split)) {
      faults.push(`Step ${mark.number} breaks over a page, though it is not longer than one.`)
    }
  }
  return faults
}

/** The numbers as printed, page by page. Empty where each page says which one it is of all there are. */
export function numberFaults(printed: readonly PageNumber[], pages: number): readonly string[] {
  const isRight = printed.length === pages && printed.every(({ page, of }, index) => page === index + 1 && of === pages)
  return isRight ? [] : ['The page numbers did not come to rest.']
}

export interface PageNumber {
  readonly page: number
  readonly of: number
}

/** A sub-step of a split step may part from its parent, so the parent's mark covers it. */
function isInside(id: string, split: ReadonlySet<string>): boolean {
  return [...split].some((parent) => id === parent || id.startsWith(`${parent}/`))
}
