import { mkdir, readFile, rename, rm, writeFile } from 'node:fs/promises'
import { dirname } from 'node:path'

/**
 * Writes a file unless it already holds this content. Written beside and renamed:
 * another process that reads it at this moment sees the old file or the new one, never half of one.
 */
export async function writeIfChanged(path, content) {
  const bytes = Buffer.from(content)
  const present = await readFile(path).catch(() => null)
  if (present?.equals(bytes)) return false
  const beside = `${path}.${process.pid}.part`
  try {
    await mkdir(dirname(path), { recursive: true })
    await writeFile(beside, bytes)
    await rename(beside, path)
  } catch (error) {
    await rm(beside, { force: true }).catch(() => {})
    throw error
  }
  return true
}
