import { describe, expect, it } from 'vitest'
import { sourceFiles, textOf } from './source-files.ts'

const gentle = 300
const most = 600

describe('gentle size', () => {
  it(`has no file of more than ${most} lines, and lists those of more than ${gentle} for a second look`, () => {
    const sizes = sourceFiles
      .filter((path) => !path.includes('/generated/'))
      .map((path) => ({ path, lines: textOf(path).split('\n').length }))
    const long = sizes.filter(({ lines }) => lines > gentle).sort((a, b) => b.lines - a.lines)
    if (long.length > 0)
      console.info(`For a second look:\n${long.map(({ path, lines }) => `  ${lines} ${path}`).join('\n')}`)
    expect(long.filter(({ lines }) => lines > most)).toEqual([])
  })
})
