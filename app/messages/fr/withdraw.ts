import type { withdraw as English } from '../en/withdraw.ts'
import type { Shape } from '../part.ts'
import { counted } from './numbers.ts'

export const withdraw: Shape<typeof English> = {
  title: 'Retirer de tous les écrans',
  what: 'Cela quitte toutes les pages, l’écran principal et la revue, sans retour. Le propriétaire de cette installation le garde avec votre motif. Ce qui a été photographié, imprimé ou exporté reste hors d’atteinte.',
  which: 'Ce qui doit disparaître',
  whichHint: 'Le plus récent d’abord. Tapez-en des mots pour le trouver.',
  none: 'Rien ici ne contient ces mots.',
  onScreenNow: 'Actuellement sur l’écran principal',
  chosen: 'À retirer',
  other: 'Choisir autre chose',
  withReplies: (count) => `avec ${counted(count, 'réponse', 'réponses')}`,
  reason: 'Motif, pour le propriétaire seul',
  reasonMissing: 'Écrivez pourquoi : le propriétaire devra en répondre plus tard.',
  submit: 'Retirer maintenant',
  offline: 'La liaison au serveur est nécessaire. D’ici son retour, ôtez-le de l’écran principal.',
  working: 'Retrait en cours …',
  done: 'Cela a disparu de tous les écrans.',
  before: 'Retiré jusqu’ici (vu du seul propriétaire)',
  picture: 'La photographie qui a été retirée',
  nothingBefore: 'Rien n’a été retiré.',
  by: (name) => `par ${name}`,
}
