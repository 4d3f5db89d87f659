import type { pictures as English } from '../en/pictures.ts'
import type { Shape } from '../part.ts'
import { whole } from './numbers.ts'

export const pictures: Shape<typeof English> = {
  add: 'Ajouter une photographie',
  addTitle: 'Ajouter une photographie',
  caution: 'Ni visages, ni noms, ni étiquettes : seulement le champ opératoire. Quiconque peut ouvrir ce cas la voit.',
  take: 'Prendre une photographie',
  choose: 'Choisir une image (PNG ou JPEG)',
  orElse:
    'Vous pouvez aussi déposer une image ici, ou en coller une. Elle est réduite dans cette page ; lieu, heure et appareil n’y restent pas.',
  preparing: 'Réduction en cours …',
  other: 'En choisir une autre',
  ready: (width, height, kilobytes) => `${whole(width)} sur ${whole(height)} pixels, ${whole(kilobytes)} ko`,
  preview: 'L’image telle qu’elle sera envoyée',
  step: 'Se rattache à',
  noStep: 'Aucune étape',
  caption: 'Légende',
  captionHint: 'Ce que l’on voit. C’est aussi ce qu’entendent ceux qui ne voient pas l’image.',
  send: 'Envoyer',
  sending: 'Envoi en cours …',
  sent: 'La photographie est sur le tableau.',
  offline: 'L’envoi demande la liaison au serveur. L’image reste dans ce formulaire d’ici là.',
  tooMany: (most) => `Ce cas a ${whole(most)} photographies, le maximum. Retirez-en une qui ne sert pas.`,
  fault: {
    none: 'Choisissez d’abord une image.',
    several: 'Une image à la fois. La première a été prise.',
    empty: 'Ce fichier est vide. Choisissez-en un autre.',
    'too-large': (megabytes, most) =>
      `Ce fichier fait ${whole(megabytes)} Mo ; ici, ${whole(most)} Mo au plus peuvent être lus. Prenez l’image en résolution plus basse, ou recadrez-la d’abord.`,
    heic: 'C’est une image HEIC, que les navigateurs ne lisent pas. Réglez l’appareil sur JPEG (« le plus compatible »), ou enregistrez-la d’abord en JPEG.',
    'other-type':
      'Ce n’est une image ni PNG ni JPEG. Enregistrez-la dans l’un de ces formats et choisissez-la de nouveau.',
    broken: 'Cette image est abîmée ou coupée. Refaites-la, ou enregistrez-la de nouveau.',
    'not-small-enough': 'Cette image n’a pas pu être assez réduite. Recadrez-la et choisissez-la de nouveau.',
  },
  title: 'Photographies',
  looseTitle: 'Photographies sans étape',
  unnamed: (clock) => `Photographie de ${clock}`,
  missing: 'Cette photographie n’est pas ici pour le moment. Elle vient avec la liaison.',
  position: (number, total) => `Photographie ${whole(number)} sur ${whole(total)}`,
  previous: 'Photographie précédente',
  next: 'Photographie suivante',
  putOnScreen: 'Mettre à l’écran principal',
  changeCaption: 'Modifier la légende',
  saveCaption: 'Enregistrer la légende',
  howToMove: 'Les flèches vont d’une photographie à l’autre.',
  latestShown: 'La dernière photographie est à l’écran principal.',
  noneYet: 'Il n’y a pas encore de photographie. La touche P en ajoute une.',
  keys: { add: 'Ajouter une photographie', show: 'Montrer la dernière photographie' },
}
