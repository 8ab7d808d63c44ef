/** The part of Handlebars that fills precompiled templates; it cannot compile, so it evaluates nothing. */
declare module 'handlebars/runtime.js' {
  interface HandlebarsRuntime {
    create(): HandlebarsRuntime
    /** A function that fills the template; `spec` is what `Handlebars.precompile` wrote. */
    template(spec: unknown): (view: unknown) => string
    registerPartial(name: string, template: (view: unknown) => string): void
  }
  const runtime: HandlebarsRuntime
  export default runtime
}
