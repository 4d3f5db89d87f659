import * as z from 'zod/mini'

/** What made the ear lose its hearing, in groups that a series can compare. Common practice, no source. */
export const Pathology = z.enum([
  'chronic-otitis-media',
  'cholesteatoma',
  'otosclerosis',
  'tympanosclerosis',
  'atresia',
  'trauma',
  'sensorineural-loss',
  'other',
])
export type Pathology = z.infer<typeof Pathology>

export const tagLength = 40
export const mostTags = 12

/** A word of the surgeon's own under which a case is found again. */
export const Tag = z
  .string()
  .check(z.minLength(1), z.maxLength(tagLength), z.regex(/^[^\p{Cc},]+$/u, 'one line, without commas'))

/** Tags of a case, each once. */
export const Tags = z.array(Tag).check(
  z.maxLength(mostTags),
  z.refine((tags) => new Set(tags).size === tags.length, 'each tag once'),
)
