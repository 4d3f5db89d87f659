import type { cause as English } from '../en/cause.ts'
import type { Shape } from '../part.ts'

export const cause: Shape<typeof English> = {
  pathology: 'Pathologie',
  notWrittenDown: 'Non précisée',
  pathologies: {
    'chronic-otitis-media': 'Otite moyenne chronique',
    cholesteatoma: 'Cholestéatome',
    otosclerosis: 'Otospongiose',
    tympanosclerosis: 'Tympanosclérose',
    atresia: 'Aplasie (atrésie)',
    trauma: 'Traumatisme',
    'sensorineural-loss': 'Surdité de perception',
    other: 'Autre',
  },
  tags: 'Étiquettes',
  tagsHint: 'Vos propres mots pour retrouver le cas dans la série, séparés par des virgules. Pas de noms.',
  tagsFault: 'Au plus 12 étiquettes différentes, de 40 caractères chacune au plus.',
}
