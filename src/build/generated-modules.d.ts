/** Modules that `src/build/compile-program.mjs` writes into `out/program/generated/`. */

/** One validator a schema, by the schema's name: `blocks/torque`, `library/hazards`, `front-matter`, `step-file` … */
declare module '#generated/schema-validators' {
  export interface SchemaError {
    readonly instancePath: string
    readonly keyword: string
    readonly params: Readonly<Record<string, unknown>>
    readonly schemaPath: string
    readonly message?: string
  }
  export interface SchemaValidator {
    (value: unknown): boolean
    errors?: readonly SchemaError[] | null
  }
  export const validators: Readonly<Record<string, SchemaValidator>>
}

/** The schemas themselves, by the same names: descriptions, examples, short forms. */
declare module '#generated/schemas' {
  export const schemas: Readonly<Record<string, unknown>>
}

/** Precompiled Handlebars templates by path without ending, `page/page`, `parts/step`. */
declare module '#generated/templates' {
  export const templates: Readonly<Record<string, unknown>>
}

/** Files of `templates/` that are handed on as they are: Typst, CSS. By path with ending, `print/checklist.typ`. */
declare module '#generated/template-texts' {
  export const templateTexts: Readonly<Record<string, string>>
}

/** The page of every kind of finding, by its name. */
declare module '#generated/fault-pages' {
  export const faultPages: Readonly<Record<string, string>>
}

/** Browser scripts bundled for the page, by name. */
declare module '#generated/browser-scripts' {
  export const browserScripts: Readonly<Record<string, string>>
}

/** The script of the desk's page, bundled with its editor. */
declare module '#generated/desk-script' {
  export const deskScript: string
}

/** The words of `shared/words/`, which every library starts from. */
declare module '#generated/words' {
  type Expressions = Readonly<Record<string, string>>
  export const words: {
    readonly verbs: readonly string[]
    readonly vague: Expressions
    readonly allowed: Expressions
    readonly unclear: Expressions
    readonly meanings: Expressions
    readonly abbreviations: Expressions
    readonly names: Readonly<Record<string, readonly string[]>>
  }
}
