import { describe, expect, it } from 'vitest'
import { filesMatching, textOf } from './source-files.ts'

// Put together here, so that this file does not hold them itself.
const hosts = [
  ['registry', 'npmjs', 'org'],
  ['registry', 'yarnpkg', 'com'],
  ['npm', 'pkg', 'github', 'com'],
  ['pypi', 'org'],
  ['proxy', 'golang', 'org'],
].map((parts) => parts.join('.'))

const machinePath = new RegExp(`(?<![\\w.~}/-])/(?:${['work', 'tmp', 'root', 'home', 'Users'].join('|')})/`)

const isText = (path: string): boolean => !/\.(?:png|jpe?g|pdf|ttf|otf|woff2?|wasm|gz|zip)$/i.test(path)

describe('words that are not committed', () => {
  const committed = filesMatching('**').filter(isText)

  it('names no package registry', () => {
    expect(committed.length).toBeGreaterThan(50)
    expect(committed.filter((path) => hosts.some((host) => textOf(path).includes(host)))).toEqual([])
  })

  it('names no folder of one machine', () => {
    const wrong = committed.flatMap((path) =>
      textOf(path)
        .split('\n')
        .filter((line) => machinePath.test(line))
        .map((line) => `${path}: ${line.trim().slice(0, 120)}`),
    )
    expect(wrong).toEqual([])
  })

  it('would see such a folder', () => {
    const [first] = ['work'].map((name) => `see ${'/'}${name}/main/src`)
    expect(machinePath.test(first ?? '')).toBe(true)
    expect(machinePath.test('the steps/work/rest')).toBe(false)
  })
})
