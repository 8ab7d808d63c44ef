import { describe, expect, it } from 'vitest'
import { faultPages } from '#generated/fault-pages'
import { catalogue } from '../../src/catalogue.ts'
import { checks, retiredNames } from '../../src/checks/list.ts'
import { filesMatching, sourceFiles, textOf } from './source-files.ts'

const kebabName = /^[a-z][a-z0-9]*(?:-[a-z0-9]+)*\/[a-z][a-z0-9]*(?:-[a-z0-9]+)*$/

/** Kinds that are declared anywhere in the code, by the name as written there. */
const declaredNames = sourceFiles
  .filter((path) => /\bFaultKind\b|\bCheck\b/.test(textOf(path)))
  .flatMap((path) =>
    [...textOf(path).matchAll(/^\s+name: '([a-z0-9-]+\/[a-z0-9-]+)'/gm)].map((match) => match[1] ?? ''),
  )

const doorKinds = declaredNames.filter((name) => !catalogue.some((kind) => kind.name === name))

describe('rooms', () => {
  it('has both files of every check, under its name', () => {
    expect(checks.length).toBeGreaterThan(30)
    const rooms = filesMatching('src/checks/*/*')
    const wanted = checks.flatMap(({ name }) => [`src/checks/${name}.md`, `src/checks/${name}.ts`])
    expect(wanted.filter((path) => !rooms.includes(path))).toEqual([])
    expect(checks.filter(({ name }) => !textOf(`src/checks/${name}.ts`).includes(`name: '${name}'`))).toEqual([])
  })

  it('lists every check that has a room', () => {
    const names = new Set(checks.map(({ name }) => name))
    const files = filesMatching('src/checks/*/*.ts').map((path) => path.slice('src/checks/'.length, -'.ts'.length))
    expect(files.filter((name) => !names.has(name))).toEqual([])
  })

  it('has a page for every kind of finding, and a kind for every page', () => {
    expect(catalogue.length).toBeGreaterThan(checks.length + 20)
    expect(catalogue.map(({ name }) => name).filter((name) => !(name in faultPages))).toEqual([])
    const names = new Set([...catalogue.map(({ name }) => name), ...doorKinds])
    expect(Object.keys(faultPages).filter((name) => !names.has(name))).toEqual([])
  })

  it('has every kind that the compiler declares in the catalogue', () => {
    const doors = sourceFiles
      .filter((path) => path.startsWith('src/doors/'))
      .map(textOf)
      .join('\n')
    expect(doorKinds.filter((name) => !doors.includes(`'${name}'`))).toEqual([])
  })

  it('says on every page what it rests on', () => {
    const opening = Object.entries(faultPages).map(([name, page]) => [name, page.split(/^## /m)[0] ?? ''] as const)
    // Heading, one paragraph, source.
    expect(opening.filter(([, text]) => text.trim().split(/\n\s*\n/).length < 3).map(([name]) => name)).toEqual([])
  })
})

describe('names', () => {
  const names = catalogue.map(({ name }) => name)

  it('are given once', () => {
    expect(names.filter((name, index) => names.indexOf(name) !== index)).toEqual([])
    expect(names.filter((name) => retiredNames.includes(name))).toEqual([])
  })

  it('are group and fault in kebab-case', () => {
    expect(names.filter((name) => !kebabName.test(name))).toEqual([])
  })

  it('name the fault, not the remedy', () => {
    const remedies = names.filter((name) => /\/(?:avoid|use|prefer|require|always|never-use|do|no)-/.test(name))
    // "no" before a thing that the text lacks is the remedy's mirror; before a word of the language it is a fault.
    expect(remedies.filter((name) => !spokenNo.has(name))).toEqual([])
  })

  it('have a title of one sentence and a severity', () => {
    expect(catalogue.filter(({ title }) => !/^\p{Lu}.*[^.]\.$/u.test(title)).map(({ name }) => name)).toEqual([])
    expect(catalogue.filter(({ severity }) => !['error', 'warning', 'advice'].includes(severity))).toEqual([])
  })

  it('rest on rules of the trade by their ids', () => {
    expect(checks.flatMap(({ rules }) => rules).filter((rule) => !/^[A-Z]{2}-\d{2}$/.test(rule))).toEqual([])
  })
})

/** Names that begin with "no" and yet name a fault. */
const spokenNo: ReadonlySet<string> = new Set(['syntax/no-phase', 'document/no-such-date'])
