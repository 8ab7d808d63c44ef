import { Ajv2020 } from 'ajv/dist/2020.js'
import standalone from 'ajv/dist/standalone/index.js'
import { build } from 'esbuild'
import { readSchemas } from './generate-schemas.mjs'

/** Keywords of our own: they describe, and never judge. */
export const describingKeywords = ['places', 'wants', 'short', 'split', 'holds', 'keysHold', 'keysDefine']

/** An ajv that knows every schema, strict about misspelt keywords. */
export function ajvOver(schemas) {
  const ajv = new Ajv2020({
    allErrors: true,
    strict: true,
    strictRequired: false,
    // `if: { minProperties: 1 }` inside an object schema needs no type of its own.
    strictTypes: false,
    validateFormats: false,
    // What went wrong is said in words of our own.
    messages: false,
    code: { source: true, esm: true, lines: false },
  })
  ajv.addVocabulary(describingKeywords)
  for (const schema of Object.values(schemas)) ajv.addSchema(schema)
  return ajv
}

/** The code of `#generated/schema-validators`: one plain function a schema, with no library behind it. */
export async function generate(rootFolder) {
  const schemas = await readSchemas(rootFolder)
  const names = Object.keys(schemas).filter((name) => name !== 'common')
  const exports = Object.fromEntries(names.map((name, index) => [`v${index}`, schemas[name].$id]))
  const code = standalone.default(ajvOver(schemas), exports)
  const table = names.map((name, index) => `${JSON.stringify(name)}: v${index}`).join(', ')
  // ajv says `require` for two small helpers of its own even in ESM, hence the bundling.
  const bundled = await build({
    stdin: { contents: `${code}\nexport const validators = { ${table} }\n`, resolveDir: rootFolder, loader: 'js' },
    bundle: true,
    format: 'esm',
    platform: 'neutral',
    minifySyntax: true,
    minifyWhitespace: true,
    treeShaking: true,
    write: false,
    logLevel: 'silent',
  })
  const [file] = bundled.outputFiles
  // Only the table is wanted from outside; the functions stay inside the module.
  return file.text.replace(/export\s*\{[^}]*\}/, (list) => (list.includes('validators') ? 'export{validators}' : list))
}
