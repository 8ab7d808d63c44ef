import { spawnSync } from 'node:child_process'
import { existsSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { rootFolder } from './root-folder.mjs'

/** Runs `npm ci` where node_modules is missing or is not what package-lock.json asks for. */
export function ensureInstalled() {
  if (isInstalled()) return
  console.error('Installing packages (once) …')
  const arguments_ = ['ci', '--no-audit', '--no-fund', '--loglevel=error']
  // Under `npm start` this names the npm that runs us; otherwise the one on the path.
  const npm = process.env.npm_execpath?.endsWith('.js') ? process.env.npm_execpath : null
  const result = npm
    ? spawnSync(process.execPath, [npm, ...arguments_], { cwd: rootFolder, stdio: ['ignore', 2, 2] })
    : spawnSync('npm', arguments_, { cwd: rootFolder, stdio: ['ignore', 2, 2], shell: process.platform === 'win32' })
  if (result.status !== 0) throw new Error('The packages could not be installed: see what npm says above.')
}

/** Whether the record that npm keeps in node_modules agrees with the lock, package by package. */
export function isInstalled() {
  const wanted = packagesIn('package-lock.json')
  const present = packagesIn('node_modules/.package-lock.json')
  if (wanted === null || present === null) return false
  return Object.entries(wanted).every(([path, entry]) => {
    if (path === '') return true
    const there = present[path]
    // Packages for other machines are in the lock and rightly not on the disk.
    if (there === undefined) return entry.optional === true
    return there.version === entry.version && there.integrity === entry.integrity
  })
}

function packagesIn(file) {
  const path = join(rootFolder, file)
  if (!existsSync(path)) return null
  try {
    return JSON.parse(readFileSync(path, 'utf8')).packages ?? null
  } catch {
    return null
  }
}
