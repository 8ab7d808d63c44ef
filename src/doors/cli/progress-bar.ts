/** A bar on the last line of the terminal, painted over itself. */
export interface ProgressBar {
  readonly show: (done: number, of: number, what: string) => void
  /** Takes the bar away, so that a sentence can be said. */
  readonly clear: () => void
}

const WIDTH = 24

/** `write` is null where nobody looks: then there is no bar. */
export function progressBar(write: ((text: string) => void) | null, columns: number | null): ProgressBar {
  if (write === null) return { show: () => {}, clear: () => {} }
  let isShown = false
  return {
    show: (done, of, what) => {
      const filled = of === 0 ? WIDTH : Math.round((WIDTH * done) / of)
      const line = `${'#'.repeat(filled)}${'.'.repeat(WIDTH - filled)} ${done} of ${of} ${what}`
      write(`\r\u001b[K${line.slice(0, Math.max(20, (columns ?? 80) - 1))}`)
      isShown = true
    },
    clear: () => {
      if (isShown) write('\r\u001b[K')
      isShown = false
    },
  }
}
