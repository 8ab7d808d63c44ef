import { mkdirSync, mkdtempSync, rmSync, symlinkSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterAll, describe, expect, it } from 'vitest'
import { findLibraryRoot } from '../../src/devices/find-library-root.ts'
import { libraryOnDisk } from '../../src/devices/library-on-disk.ts'

const outside = mkdtempSync(join(tmpdir(), 'witnessmark-disk-'))
const root = join(outside, 'library')
mkdirSync(join(root, 'procedures/belt'), { recursive: true })
mkdirSync(join(root, 'shared'))
writeFileSync(join(outside, 'secret.md'), 'not yours')
writeFileSync(join(root, 'witnessmark.yaml'), 'name: Kestrel Ridge\n')
writeFileSync(join(root, 'procedures/belt/belt.md'), '\ufeff# Belt °\r\n')
writeFileSync(join(root, 'shared/b.yaml'), 'b')
writeFileSync(join(root, 'shared/a.yaml'), 'a')
writeFileSync(join(root, 'shared/.hidden.yaml'), 'h')
writeFileSync(join(root, 'zero.md'), 'a\0b')
writeFileSync(join(root, 'latin1.md'), Buffer.from([0x41, 0x0a, 0x42, 0xb0, 0x43]))
writeFileSync(join(root, 'utf16.md'), Buffer.from('\ufeff# Belt', 'utf16le'))
writeFileSync(join(root, 'large.md'), Buffer.alloc(8 * 1024 * 1024 + 1, 0x61))
writeFileSync(join(root, 'figure.png'), Buffer.from([0x89, 0x50, 0x00, 0xff]))
symlinkSync(join(outside, 'secret.md'), join(root, 'leads-out.md'))
symlinkSync(outside, join(root, 'up'))
symlinkSync(join(root, 'shared/a.yaml'), join(root, 'leads-within.yaml'))
symlinkSync(join(root, 'loop.md'), join(root, 'loop.md'))
afterAll(() => rmSync(outside, { recursive: true, force: true }))

const library = libraryOnDisk(root)

describe('a library on the disk', () => {
  it('reads text without its byte order mark, and bytes', () => {
    expect(library.readText('procedures/belt/belt.md')).toEqual({ kind: 'text', text: '# Belt °\r\n' })
    expect(library.readText('procedures/belt/../belt/belt.md').kind).toBe('text')
    expect(library.readText('leads-within.yaml')).toEqual({ kind: 'text', text: 'a' })
    expect(library.readBytes('figure.png')).toEqual({ kind: 'bytes', base64: 'iVAA/w==' })
  })

  it('lists the files of a folder in order, and nothing of a folder that is not there or lies outside', () => {
    expect(library.listFolder('shared')).toEqual(['shared/a.yaml', 'shared/b.yaml'])
    expect(library.listFolder('shared/')).toEqual(['shared/a.yaml', 'shared/b.yaml'])
    for (const folder of ['none', '..', '../', outside, 'up', 'shared/a.yaml'])
      expect(library.listFolder(folder), folder).toEqual([])
  })

  it('says that a file is missing', () => {
    for (const path of ['none.md', 'none/none.md', 'shared/a.yaml/below'])
      expect(library.readText(path), path).toEqual({ kind: 'missing' })
  })

  it('refuses what it should not read, each with a sentence', () => {
    const refused = [
      '../secret.md',
      'procedures/../../secret.md',
      join(outside, 'secret.md'),
      'C:/secret.md',
      '..\\secret.md',
      'leads-out.md',
      'up/secret.md',
      'loop.md',
      'shared',
      '',
      'a\0b',
      'zero.md',
      'latin1.md',
      'utf16.md',
      'large.md',
      `${'long'.repeat(100)}.md`,
    ]
    const sentences = refused.map((path) => {
      const answer = library.readText(path)
      return `${path.replace(outside, '<outside>').replace('\0', '␀').slice(0, 30)}: ${answer.kind === 'refused' ? answer.because : answer.kind}`
    })
    expect(sentences.join('\n')).toMatchInlineSnapshot(`
      "../secret.md: It lies outside the library, and nothing outside the library is read.
      procedures/../../secret.md: It lies outside the library, and nothing outside the library is read.
      <outside>/secret.md: Its path starts at the root of the disk. Write it relative to the procedure, inside the library.
      C:/secret.md: Its path starts at the root of the disk. Write it relative to the procedure, inside the library.
      ..\\secret.md: Its path has a backslash. Write it with forward slashes.
      leads-out.md: It is a link that leads out of the library. Put the file itself into the library.
      up/secret.md: It is a link that leads out of the library. Put the file itself into the library.
      loop.md: It is a link that leads back to itself.
      shared: It is a folder, and a file is wanted.
      : That is not the name of a file.
      a␀b: That is not the name of a file.
      zero.md: It is not a text file: it has zero bytes in it.
      latin1.md: It is not UTF-8 text: line 2 has a byte that UTF-8 does not allow. Save it as UTF-8.
      utf16.md: It is saved as UTF-16. Save it as UTF-8.
      large.md: It is too large: 8.1 MB, and 8 MB is the most that is read.
      longlonglonglonglonglonglonglo: Its name is too long for the disk."
    `)
  })

  it('does not hang on a device', () => {
    // Linux gives every process such a folder of devices and pipes.
    const answer = libraryOnDisk('/dev').readText('zero')
    expect(answer).toEqual({ kind: 'refused', because: 'It is not an ordinary file.' })
  })

  it('begins at the nearest folder above with witnessmark.yaml, else in the folder of the file', () => {
    expect(findLibraryRoot(join(root, 'procedures/belt/belt.md'))).toBe(root)
    expect(findLibraryRoot(join(outside, 'secret.md'))).toBe(outside)
  })
})
