import { generateModules } from './generate-modules.mjs'

/** Runs once before any test: the modules named `#generated/…` must stand. */
export default async function setup() {
  try {
    await generateModules()
  } catch (error) {
    // Tests that need the missing module fail by themselves and say so; the others may still tell something.
    console.error(`Not every generated module could be made.\n${error instanceof Error ? error.message : error}`)
  }
}
