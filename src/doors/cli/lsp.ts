/** `witnessmark lsp`: `out/program/lsp.js` stands by itself, so that no other command reads the protocol in. */
export async function lsp(version: string): Promise<number> {
  const program: { readonly main: (version: string) => Promise<number> } = await import(
    new URL('./lsp.js', import.meta.url).href
  )
  return program.main(version)
}
