import { existsSync, readdirSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { faultPages } from '#generated/fault-pages'
import { filesMatching, root, textOf } from './source-files.ts'

describe('nothing stale', () => {
  const guide = textOf('DEVELOPERS.md')

  it('names in DEVELOPERS.md only files and folders that are there', () => {
    const named = [...guide.matchAll(/`((?:src|tests|schema|shared|templates|procedures)\/[\w./-]*)`/g)].map(
      ([, path]) => path ?? '',
    )
    expect(named.length).toBeGreaterThan(5)
    expect(named.filter((path) => !existsSync(join(root, path)))).toEqual([])
  })

  it('tells in DEVELOPERS.md of every folder of src', () => {
    const folders = readdirSync(join(root, 'src'), { withFileTypes: true }).filter((entry) => entry.isDirectory())
    expect(folders.map((folder) => folder.name).filter((name) => !guide.includes(`\`src/${name}\``))).toEqual([])
  })

  it('tests with the pages as they stand in the files', () => {
    const pages = filesMatching(['src/*/faults/*.md', 'src/checks/*/*.md'])
    expect(pages.length).toBeGreaterThan(20)
    expect(Object.values(faultPages).length).toBe(pages.length)
    const generated = new Set(Object.values(faultPages))
    expect(pages.filter((path) => !generated.has(textOf(path)))).toEqual([])
  })
})
