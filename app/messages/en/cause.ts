import type { Pathology } from '@/lib/devices/pathology.ts'

const pathologies: Readonly<Record<Pathology, string>> = {
  'chronic-otitis-media': 'Chronic otitis media',
  cholesteatoma: 'Cholesteatoma',
  otosclerosis: 'Otosclerosis',
  tympanosclerosis: 'Tympanosclerosis',
  atresia: 'Atresia',
  trauma: 'Trauma',
  'sensorineural-loss': 'Sensorineural loss',
  other: 'Other',
}

/** What made the ear lose its hearing, and the surgeon's own tags. */
export const cause = {
  pathology: 'Pathology',
  notWrittenDown: 'Not written down',
  pathologies,
  tags: 'Tags',
  tagsHint: 'Your own words to find the case again in the series, with commas between. No names.',
  tagsFault: 'At most 12 different tags of at most 40 characters each.',
}
