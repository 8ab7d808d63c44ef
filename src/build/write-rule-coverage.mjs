import { existsSync, readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { pathToFileURL } from 'node:url'
import { rootFolder } from './root-folder.mjs'

const accountFiles = ['k1', 'k2', 'k3']
const tableFile = join(rootFolder, 'src/checks/coverage.md')

const groups = {
  SM: 'Safety messages',
  HP: 'Hold points',
  LO: 'Lockout',
  LI: 'Lifting and support',
  HW: 'Hot work',
  CS: 'Confined spaces',
  PR: 'Prerequisites',
  SG: 'Step wording',
  NU: 'Numbers',
  BR: 'Branching',
  PK: 'Place-keeping',
  RC: 'Restoration',
  RE: 'Records',
  PL: 'Page layout',
}

/** Rules of the trade as they are known to the tests: id, title, basis, source. */
export function readRules() {
  return JSON.parse(readFileSync(join(rootFolder, 'tests/coverage/rules.json'), 'utf8'))
}

/** What keeps the rules that no check keeps; `complete` once every part is written. */
export function readAccounts() {
  const paths = accountFiles.map((name) => join(rootFolder, `tests/coverage/${name}.json`))
  const there = paths.filter((path) => existsSync(path))
  return {
    accounts: Object.assign({}, ...there.map((path) => JSON.parse(readFileSync(path, 'utf8')))),
    complete: there.length === paths.length,
  }
}

/** The table of rules and what keeps each, as Markdown. */
export function ruleCoverage(rules, checks, accounts) {
  const kept = rules.map((rule) => keptBy(rule, checks, accounts[rule.id]))
  const count = (kind) => kept.filter(({ kinds }) => kinds[0] === kind).length
  const unknown = Object.keys(accounts).filter((id) => !rules.some((rule) => rule.id === id))
  if (unknown.length > 0) throw new Error(`No such rule: ${unknown.join(', ')}`)
  const sections = Object.entries(groups).flatMap(([letters, title]) => [
    `## ${title} (${letters})`,
    '',
    '| rule | title | kept by |',
    '|---|---|---|',
    ...kept.filter(({ rule }) => rule.id.startsWith(letters)).map(rowOf),
    '',
  ])
  const unaccounted = count('unaccounted')
  return [
    '# Rules and what keeps them',
    '',
    'Written by `node src/build/write-rule-coverage.mjs` from the `rules` of each check and from `tests/coverage`. Do not edit.',
    'The source of each rule stands in `tests/coverage/rules.json` and on the page of the check that keeps it. *From memory*: no',
    'source of the rule was read, so no finding rests on it alone as an error.',
    '',
    `${rules.length} rules. ${checks.length} checks.`,
    '',
    '| kept by | rules |',
    '|---|---|',
    `| a check | ${count('check')} |`,
    `| the layout of an output, with the test that proves it | ${count('output')} |`,
    `| records, to come | ${count('records')} |`,
    `| left out, with the reason | ${count('leftOut')} |`,
    ...(unaccounted > 0 ? [`| nothing yet | ${unaccounted} |`] : []),
    '',
    ...sections,
  ].join('\n')
}

function keptBy(rule, checks, account) {
  const names = checks.filter((check) => check.rules.includes(rule.id)).map((check) => check.name)
  const told = account === undefined ? [] : [toldBy(account)]
  const kinds = [...(names.length > 0 ? ['check'] : []), ...told.map(({ kind }) => kind)]
  const says = [names.map((name) => `\`${name}\``).join(', '), ...told.map(({ text }) => text)].filter(
    (text) => text !== '',
  )
  return { rule, kinds: kinds.length > 0 ? kinds : ['unaccounted'], says: says.join('; ') || '**nothing yet**' }
}

function toldBy(account) {
  if (account.output !== undefined)
    return { kind: 'output', text: `${account.output}: ${account.says} (\`${account.test}\`)` }
  if (account.records !== undefined) return { kind: 'records', text: `records, to come: ${account.records}` }
  return { kind: 'leftOut', text: `left out, ${account.leftOut}` }
}

function rowOf({ rule, says }) {
  const memory = rule.basis === 'memory' ? ' *(from memory)*' : ''
  const cell = (text) => text.replaceAll('|', '\\|')
  return `| ${rule.id} | ${cell(rule.title)}${memory} | ${cell(says)} |`
}

/** The checks as they stand in the sources, bundled in memory. */
async function checksOfTheSources() {
  const { build } = await import('esbuild')
  const { outputFiles } = await build({
    entryPoints: [join(rootFolder, 'src/checks/list.ts')],
    absWorkingDir: rootFolder,
    bundle: true,
    write: false,
    format: 'esm',
    platform: 'node',
    logLevel: 'silent',
    // Some packages are CommonJS and ask for Node's own modules with `require`.
    banner: {
      js: `import { createRequire } from 'node:module'; const require = createRequire(${JSON.stringify(join(rootFolder, 'package.json'))});`,
    },
  })
  const code = Buffer.from(outputFiles[0].contents).toString('base64')
  return (await import(`data:text/javascript;base64,${code}`)).checks
}

if (import.meta.url === pathToFileURL(process.argv[1] ?? '').href) {
  const { accounts } = readAccounts()
  writeFileSync(tableFile, ruleCoverage(readRules(), await checksOfTheSources(), accounts))
}
