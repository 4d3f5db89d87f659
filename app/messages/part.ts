import type { Language } from './language.ts'

/**
 * What another language has to say where English says T: the same keys, and functions of the same arguments. A missing or an
 * extra key does not compile.
 */
export type Shape<T> = T extends string
  ? string
  : T extends (...facts: infer Facts) => infer Said
    ? (...facts: Facts) => Shape<Said>
    : { readonly [Key in keyof T]: Shape<T[Key]> }

/** The sentences of one part of the product. Each language is a module of its own: a page loads one of them. */
export interface Part<T> {
  /** @throws whatever kept the module from loading; asking again tries again */
  load(language: Language): Promise<T>
  /** undefined until it has been loaded */
  in(language: Language): T | undefined
}

export function part<T extends object>(loads: { readonly [L in Language]: () => Promise<T> }): Part<T> {
  const loaded = new Map<Language, T>()
  const loading = new Map<Language, Promise<T>>()
  const load = async (language: Language): Promise<T> => {
    try {
      const sentences = await loads[language]()
      loaded.set(language, sentences)
      return sentences
    } catch (cause) {
      loading.delete(language)
      throw cause
    }
  }
  return {
    load(language) {
      const begun = loading.get(language) ?? load(language)
      loading.set(language, begun)
      return begun
    },
    in: (language) => loaded.get(language),
  }
}
