import type { join as English } from '../en/join.ts'
import type { Shape } from '../part.ts'

export const join: Shape<typeof English> = {
  title: 'Votre invitation',
  invitedTo: 'Vous êtes invité à',
  everything: 'toute cette installation, comme propriétaire',
  asRole: 'Rôle',
  may: {
    moderator: [
      'Conduire le cas : décider de l’écran principal, ordonner, appeler et traiter les questions',
      'Saisir et modifier tout ce que peut l’équipe opératoire',
    ],
    team: [
      'Saisir audiogrammes, plan, étapes, décisions et éventualités',
      'Valider les audiogrammes et écarter ceux saisis par erreur',
      'Poser des questions et y répondre',
    ],
    panel: [
      'Lire tout le cas',
      'Interroger sur un point de l’audiogramme, une décision ou une étape ; appuyer et répondre aux autres',
      'Être visible par nom, établissement et pointeur',
    ],
    observer: ['Lire tout le cas et suivre l’écran principal', 'Être compté, pas nommé'],
  },
  conductTitle: 'Avant d’entrer',
  conduct: [
    'Tout est confidentiel ici. N’enregistrez, ne photographiez et ne transmettez rien de ce que vous voyez.',
    'Utilisez le pseudonyme. N’écrivez rien qui désigne une personne : ni nom, ni date de naissance, ni numéro de dossier, ni adresse.',
    'Ce que vous écrivez est gardé avec votre nom et l’heure jusqu’à l’effacement du cas.',
    'Aide à la décision pour professionnels habilités, pas un dispositif médical. La notice du dispositif, les règles locales et l’équipe soignante décident.',
  ],
  name: 'Votre nom',
  nameHint: 'Tel que vos collègues le connaissent. Il figure à côté de ce que vous écrivez.',
  affiliation: 'Hôpital ou établissement',
  nameMissing: 'Tapez votre nom.',
  affiliationMissing: 'Tapez votre hôpital ou établissement.',
  agree: 'J’ai lu ceci et je le respecte',
  agreeMissing: 'Cochez cette case pour entrer.',
  joinAs: (role) => `Entrer comme ${role}`,
  until: (when) => `Ce lien est utilisable jusqu’au ${when}.`,
  knownAs: (name, affiliation) => `Dans ce navigateur, vous êtes ${name}, ${affiliation}.`,
  knownHint:
    'L’invitation s’ajoute à cette personne. Si elle porte sur un cas où vous êtes déjà, son rôle remplace votre rôle actuel.',
  continueAs: (name) => `Continuer comme ${name}`,
  somebodyElse: 'Je suis quelqu’un d’autre',
  somebodyElseHint: (name) =>
    `Cela déconnecte ${name} de ce navigateur. Ce que cette personne a écrit reste ; elle ne peut revenir qu’avec son propre lien.`,
  signOut: 'Se déconnecter et entrer à nouveau',
  unknown: 'Ce lien ne fonctionne pas',
  unknownHint:
    'Il est peut-être incomplet : copiez toute la ligne du message. Si cela échoue encore, demandez un nouveau lien.',
  revoked: 'Ce lien a été révoqué',
  revokedHint: 'La personne qui vous a invité l’a retiré. Demandez-lui-en un nouveau.',
  expired: 'Ce lien a expiré',
  expiredHint: (when) =>
    `Il était utilisable jusqu’au ${when}. Demandez-en un nouveau à la personne qui vous a invité.`,
  cannotCheck: 'L’invitation ne peut pas être vérifiée maintenant',
  tryAgain: 'Réessayer',
}
