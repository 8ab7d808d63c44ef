import { describe, expect, it } from 'vitest'
import { importGraph, importsOf, sourceFiles } from './source-files.ts'

/** From the ground up. A file imports from lower floors, or from its own room. */
const floors: readonly (readonly string[])[] = [
  ['text'],
  ['quantities'],
  ['findings', 'trade'],
  ['syntax'],
  ['library'],
  ['model'],
  ['flow'],
  ['checks', 'step-file', 'revise', 'judge'],
  ['wording'],
  ['record'],
  ['html'],
  ['drawings'],
  ['outputs'],
  ['catalogue.ts'],
  ['compile.ts'],
  ['writing'],
  ['devices'],
  // What every door may have to say.
  ['doors/faults'],
  ['doors'],
]

function floorOf(path: string): number {
  const [, house = '', inner = ''] = path.split('/')
  const own = floors.findIndex((rooms) => rooms.includes(`${house}/${inner}`))
  return own === -1 ? floors.findIndex((rooms) => rooms.includes(house)) : own
}

/** The folder within which files know one another: a door is a room of its own, so is each output. */
function roomOf(path: string): string {
  const [, house = '', inner = ''] = path.split('/')
  return house === 'doors' || house === 'outputs' ? `${house}/${inner}` : house
}

const inACheckRoom = (path: string): boolean => /^src\/checks\/[^/]+\/[^/]+$/.test(path)

describe('floors', () => {
  const graph = importGraph()

  it('reads imports of every form', () => {
    const code = `
      import { a } from './a.ts'
      import type { B, C as D } from '../b.ts'
      import * as e from "./e.ts"
      import './f.ts'
      export { g } from './g.ts'
      // import { no } from './comment.ts'
      const h = await import('./h.ts')
      import {
        i,
        type J,
      } from './i.ts'`
    expect(importsOf(code)).toEqual(['./a.ts', '../b.ts', './e.ts', './f.ts', './g.ts', './h.ts', './i.ts'])
    expect([...graph.values()].flat().length).toBeGreaterThan(sourceFiles.length)
  })

  it('gives every folder of src a floor', () => {
    expect(sourceFiles.filter((path) => floorOf(path) === -1)).toEqual([])
  })

  it('lets nothing import upwards or sideways', () => {
    const wrong = [...graph].flatMap(([path, imports]) =>
      imports
        .filter((target) => floorOf(target) >= floorOf(path) && roomOf(target) !== roomOf(path))
        .map((target) => `${path} → ${target}`),
    )
    expect(wrong).toEqual([])
  })

  it('keeps a check from knowing another check', () => {
    const wrong = [...graph].flatMap(([path, imports]) =>
      inACheckRoom(path) ? imports.filter(inACheckRoom).map((target) => `${path} → ${target}`) : [],
    )
    expect(wrong).toEqual([])
  })

  it('imports only files that are there', () => {
    const there = new Set(sourceFiles)
    const missing = [...graph].flatMap(([path, imports]) =>
      imports
        .filter((target) => /\.(?:ts|mjs)$/.test(target) && !there.has(target))
        .map((target) => `${path} → ${target}`),
    )
    expect(missing).toEqual([])
  })

  it('has no circles, type imports included', () => {
    expect(circlesIn(graph)).toEqual([])
    const ring = new Map([
      ['a', ['b']],
      ['b', ['c']],
      ['c', ['a']],
      ['d', ['a']],
    ])
    expect(circlesIn(ring)).toEqual(['a → b → c → a'])
  })

  it('has no barrels: files that only hand on what others export', () => {
    expect(sourceFiles.filter((path) => /\/index\.m?[jt]s$/.test(path))).toEqual([])
  })
})

/** Each circle once, beginning at its first file in the order of the graph. */
function circlesIn(graph: ReadonlyMap<string, readonly string[]>): readonly string[] {
  const circles: string[] = []
  const done = new Set<string>()
  const walk = (path: string, way: readonly string[]): void => {
    const from = way.indexOf(path)
    if (from !== -1) {
      circles.push([...way.slice(from), path].join(' → '))
      return
    }
    if (done.has(path)) return
    for (const next of graph.get(path) ?? []) walk(next, [...way, path])
    done.add(path)
  }
  for (const path of graph.keys()) walk(path, [])
  return circles
}
