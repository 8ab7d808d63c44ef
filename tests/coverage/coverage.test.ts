import { existsSync } from 'node:fs'
import { join } from 'node:path'
import { describe, expect, it } from 'vitest'
import { readAccounts, readRules, ruleCoverage } from '../../src/build/write-rule-coverage.mjs'
import { checks } from '../../src/checks/list.ts'
import { root, textOf } from '../house/source-files.ts'

const rules = readRules()
const { accounts, complete } = readAccounts()
const kept = new Set([...checks.flatMap((check) => check.rules), ...Object.keys(accounts)])

describe('rules of the trade', () => {
  it('are 183, each under its own id', () => {
    expect(rules).toHaveLength(183)
    expect(new Set(rules.map(({ id }) => id)).size).toBe(183)
  })

  it('are named by checks with ids that there are', () => {
    const ids = new Set(rules.map(({ id }) => id))
    const unknown = checks.flatMap((check) =>
      check.rules.filter((id) => !ids.has(id)).map((id) => `${check.name}: ${id}`),
    )
    expect(unknown).toEqual([])
  })

  it('are each kept by something, or left out for a reason', () => {
    const open = rules.map(({ id }) => id).filter((id) => !kept.has(id))
    // Other parts of the account may still be in the writing; the table lists what is open until then.
    if (complete) expect(open).toEqual([])
  })

  it('that an output keeps name a test that is there', () => {
    const tests = Object.values(accounts).flatMap((account) => ('test' in account ? [account.test] : []))
    expect(tests.filter((path) => !existsSync(join(root, path)))).toEqual([])
  })

  it('stand in the table as a fresh writing of it has them (node src/build/write-rule-coverage.mjs)', () => {
    const fresh = ruleCoverage(rules, checks, accounts)
    expect(fresh.split('\n').length).toBeGreaterThan(183)
    if (complete) expect(textOf('src/checks/coverage.md')).toBe(fresh)
  })
})
