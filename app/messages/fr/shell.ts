import type { shell as English } from '../en/shell.ts'
import type { Shape } from '../part.ts'

export const shell: Shape<typeof English> = {
  productName: 'Promontory',
  productPurpose: 'Un tableau partagé de discussion de cas pour la chirurgie de l’oreille avec implants auditifs',
  switchTheme: (to) => (to === 'theatre' ? 'Thème sombre pour le bloc' : 'Thème clair pour la consultation'),
  separated: (parts) => parts.join(' ; '),
  close: 'Fermer',
  cancel: 'Annuler',
  dismiss: 'Masquer',
  skipTo: (place) => `Aller à : ${place}`,
  noLink: 'Le serveur est injoignable. Vérifiez le réseau, puis réessayez.',
  unreadableAnswer: 'La page ne comprend pas la réponse du serveur. Rechargez la page.',
  serverTrouble: (status) => `Le serveur n’a pas pu le faire (${status}). Réessayez dans un instant.`,
  loading: 'Chargement ...',
  leave: 'Quitter cet ordinateur',
  language: 'Langue',
  languageNotFetched: 'Cette langue n’a pas pu être chargée. Vérifiez le réseau, puis choisissez-la de nouveau.',
}
