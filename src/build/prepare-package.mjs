import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { writeFile } from 'node:fs/promises'
import { join } from 'node:path'
import { build } from 'esbuild'
import { compileProgram, packagesIn } from './compile-program.mjs'
import { rootFolder } from './root-folder.mjs'

/**
 * What `npm pack` runs before it packs: compiles the program, and writes the licence and the notices of the packages whose code it holds
 * into `out/program/`. Packages that are installed beside it (fonts, typesetter) bring their own.
 */
await compileProgram()
const programFolder = join(rootFolder, 'out/program')
const inside = JSON.parse(readFileSync(join(programFolder, 'packages-inside.json'), 'utf8'))
const inBrowser = await build({
  absWorkingDir: rootFolder,
  entryPoints: [
    'src/doors/desk/browser/start.ts',
    'src/doors/page/page.entry.ts',
    'src/doors/index-page/index.entry.ts',
  ],
  outdir: programFolder,
  bundle: true,
  metafile: true,
  write: false,
  logLevel: 'silent',
})
const packages = [...new Set([...inside, ...packagesIn(inBrowser.metafile)])].sort()
const installed = Object.keys(JSON.parse(readFileSync(join(rootFolder, 'package.json'), 'utf8')).dependencies)
const notices = packages.map((name) => noticeOf(name, 'Its code is part of the program.'))
const beside = installed.map((name) => noticeOf(name, 'It is installed beside the program.'))
await writeFile(join(programFolder, 'NOTICES.txt'), [...notices, ...beside].join(`\n${'-'.repeat(78)}\n\n`))
const licence = readFileSync(join(rootFolder, 'node_modules/playwright-core/LICENSE'), 'utf8')
if (!/Apache License\s+Version 2\.0/.test(licence))
  throw new Error('The text of the Apache licence is not where it was.')
await writeFile(join(programFolder, 'LICENSE.txt'), licence)

function noticeOf(name, how) {
  const folder = join(rootFolder, 'node_modules', name)
  const { version, license } = JSON.parse(readFileSync(join(folder, 'package.json'), 'utf8'))
  const texts = readdirSync(folder)
    .filter((file) => /^(licen[cs]e|copying|notice|ofl)/i.test(file))
    .filter((file) => existsSync(join(folder, file)))
    .map((file) => readFileSync(join(folder, file), 'utf8').trim())
  if (texts.length === 0 && license === undefined) throw new Error(`${name} has no licence: look before you pack it.`)
  return [`${name} ${version}, licence ${license ?? 'in its text'}. ${how}`, ...texts].join('\n\n') + '\n'
}
