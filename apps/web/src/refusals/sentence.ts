/**
 * A sentence as the core or the service says it, and in Spanish. `{name}` is what a sentence fills in, and stays as it
 * is; `{name:told}` is itself told, `{name:list}` and `{name:or}` are told part by part.
 */
export type Sentence = readonly [en: string, es: string];
