import type { postGuard as English } from '../en/post-guard.ts'
import type { Shape } from '../part.ts'

export const postGuard: Shape<typeof English> = {
  title: 'Ce texte identifie-t-il quelqu’un ?',
  explanation:
    'Tous les participants du cas le liraient, et le journal le garde. Utilisez le pseudonyme et omettez ce qui désigne une personne.',
  kind: {
    'name-and-birth-date': 'ressemble à un nom ou à une date de naissance',
    'record-number': 'ressemble à un numéro de dossier',
    'phone-number': 'ressemble à un numéro de téléphone',
    'postal-address': 'ressemble à une adresse',
  },
  change: 'Modifier le texte',
  postAnyway: 'Il n’identifie personne, publier',
}
