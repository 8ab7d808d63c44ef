import type { BuildOptions } from 'esbuild'

export const pageBundle: BuildOptions & { readonly write: false }
export function generate(rootFolder: string): Promise<string>
