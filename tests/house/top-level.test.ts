import { readdirSync } from 'node:fs'
import { describe, expect, it } from 'vitest'
import { filesMatching, root, textOf } from './source-files.ts'

const folders = ['.ci', '.git', 'node_modules', 'out', 'procedures', 'schema', 'shared', 'src', 'templates', 'tests']

const files = [
  '.gitattributes',
  '.gitignore',
  'biome.json',
  'CHANGELOG.md',
  'DEVELOPERS.md',
  'knip.json',
  'LICENSE',
  'NOTICE',
  'package-lock.json',
  'package.json',
  'README.md',
  'tsconfig.json',
  'vitest.config.ts',
  'witnessmark.yaml',
]

describe('the house from outside', () => {
  it('has only these things at its top', () => {
    const there = readdirSync(root).filter((name) => !folders.includes(name) && !files.includes(name))
    expect(there).toEqual([])
  })

  it('keeps code out of shared, schema, templates and procedures', () => {
    expect(
      filesMatching(['shared/**', 'schema/**', 'procedures/**', 'templates/**']).filter((path) =>
        /\.[cm]?[jt]sx?$/.test(path),
      ),
    ).toEqual([])
  })

  it('explains every package that it depends on in DEVELOPERS.md', () => {
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<
      string,
      Record<string, string>
    >
    const guide = textOf('DEVELOPERS.md')
    const names = Object.keys({ ...dependencies, ...devDependencies })
    expect(names.length).toBeGreaterThan(5)
    expect(names.filter((name) => !guide.includes(`\`${name}\``))).toEqual([])
  })

  it('pins every package to one version', () => {
    const { dependencies, devDependencies } = JSON.parse(textOf('package.json')) as Record<
      string,
      Record<string, string>
    >
    const loose = Object.entries({ ...dependencies, ...devDependencies }).filter(
      ([, version]) => !/^\d+\.\d+\.\d+/.test(version),
    )
    expect(loose).toEqual([])
  })
})
