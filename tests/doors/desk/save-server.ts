import { libraryOnDisk } from '../../../src/devices/library-on-disk.ts'
import { hashOf, saveProcedureFile } from '../../../src/doors/desk/server/procedure-files.ts'

/** Saves one procedure again and again, as the desk does, until it is killed: every text is one letter many times over. */
const [root = '', file = ''] = process.argv.slice(2)
const reader = libraryOnDisk(root)
const shelf = { root, reader, folder: '', files: () => [file] }
process.stdout.write('begun\n')
for (let turn = 0; ; turn++) {
  const now = reader.readText(file)
  if (now.kind !== 'text') throw new Error('the file is gone')
  const letter = String.fromCharCode(97 + (turn % 26))
  const saved = saveProcedureFile(shelf, file, hashOf(now.text), `${letter.repeat(79)}\n`.repeat(4000))
  if (saved.kind !== 'saved') throw new Error(saved.kind === 'failed' ? saved.because : saved.kind)
}
