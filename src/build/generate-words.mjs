import { readdir, readFile } from 'node:fs/promises'
import { join } from 'node:path'
import { parse } from 'yaml'

const topics = ['vague', 'allowed', 'unclear', 'meanings', 'abbreviations', 'names']

/** The code of `#generated/words`: what `shared/words/` holds, which every library starts from. */
export async function generate(rootFolder) {
  const folder = join(rootFolder, 'shared/words')
  const words = { verbs: [], ...Object.fromEntries(topics.map((topic) => [topic, {}])) }
  for (const file of (await readdir(folder)).filter((name) => name.endsWith('.yaml')).sort()) {
    // As the checker reads it: everything is a text.
    const data = parse(await readFile(join(folder, file), 'utf8'), { schema: 'failsafe' })
    words.verbs.push(...(data.verbs ?? []))
    for (const topic of topics) Object.assign(words[topic], data[topic])
  }
  return `export const words = ${JSON.stringify(words)}\n`
}
