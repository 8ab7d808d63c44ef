/** What the tests use of a package that brings no types. */
declare module '@lhncbc/ucum-lhc' {
  interface UcumUtils {
    readonly validateUnitString: (code: string) => { readonly status: 'valid' | 'invalid' | 'error' }
    readonly convertUnitTo: (
      from: string,
      value: number,
      to: string,
    ) => {
      readonly status: 'succeeded' | 'failed' | 'error'
      readonly toVal: number | null
      readonly msg: readonly string[] | null
    }
  }
  const ucum: { readonly UcumLhcUtils: { readonly getInstance: () => UcumUtils } }
  export default ucum
}
