import { fileURLToPath } from 'node:url'

/** The project's own folder, with a slash at the end's place left off. */
export const rootFolder = fileURLToPath(new URL('../..', import.meta.url)).replace(/[\\/]$/, '')
