import { readFileSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { compile } from 'json-schema-to-typescript'

const BANNER =
  '// Written by src/build/write-step-file-types.mjs from schema/step-file.schema.json. Do not edit: change the schema.'

/** The TypeScript types of the step file, from its schema. */
export async function stepFileTypes(rootFolder) {
  const schema = JSON.parse(readFileSync(join(rootFolder, 'schema/step-file.schema.json'), 'utf8'))
  return compile(schema, 'StepFile', {
    bannerComment: BANNER,
    additionalProperties: false,
    style: { semi: false, singleQuote: true, printWidth: 120 },
  })
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const root = fileURLToPath(new URL('../../', import.meta.url))
  writeFileSync(join(root, 'src/step-file/generated/step-file.ts'), await stepFileTypes(root))
}
