import type { meeting as English } from '../en/meeting.ts'
import type { Shape } from '../part.ts'
import { counted } from './numbers.ts'

export const meeting: Shape<typeof English> = {
  onNow: 'En cours',
  since: (clock) => `depuis ${clock}`,
  notBegun: 'Le programme n’a pas commencé',
  between: 'Entre deux cas',
  elsewhere: 'Un cas que votre invitation ne couvre pas est en cours',
  lastOne: 'Aucun cas ne suit',
  next: (label) => `Ensuite : ${label}`,
  nextAt: (label, time) => `Ensuite : ${label}, prévu à ${time}`,
  openBoard: (label) => `Ouvrir le tableau de ${label}`,
  linkLost: (since) => `La liaison est perdue depuis ${since}. Un autre cas est peut-être en cours.`,
  bringOn: 'Faire passer',
  bringOnCase: (label) => `Faire passer ${label}`,
  goBetween: 'Passer entre deux cas',
  consent:
    'Le cas en cours est montré à toute la réunion. On ne fait passer un cas que si le consentement du patient à la diffusion est consigné dans ses détails.',
  up: (label) => `Monter ${label}`,
  down: (label) => `Descendre ${label}`,
  moved: (label, place, of) => `${label} est maintenant numéro ${place} sur ${of}.`,
  setTime: 'Heure',
  setTimeOf: (label) => `Heure et pause de ${label}`,
  plannedAt: 'Prévu à',
  plannedAtHint: 'À votre horloge ; chacun le lit à la sienne. Laissez vide pour ne pas fixer d’heure.',
  plannedAtWrong: 'Tapez le jour et l’heure en entier, ou videz les deux.',
  breakBefore: 'Pause avant ce cas',
  breakBeforeHint: 'Par exemple « Café ». Laissez vide s’il n’y en a pas.',
  save: 'Enregistrer',
  planned: 'Prévu',
  pages: 'Pages du programme',
  page: { screen: 'Écran principal', theatre: 'Vue du bloc', handout: 'Fiche imprimée', code: 'Vérifier un code' },
  waiting: {
    next: 'Ensuite',
    afterBreak: 'Après la pause',
    planned: (time) => `prévu à ${time}`,
    plannedIn: (time, minutes) =>
      minutes === 1 ? `prévu à ${time}, dans une minute` : `prévu à ${time}, dans ${minutes} minutes`,
    comesOn: 'Va passer',
    thatWasAll: 'C’était le dernier cas',
    nothingPlanned: 'Aucun cas n’est encore prévu',
    elsewhere: 'Un cas que ce lien n’ouvre pas est en cours',
    afterThat: 'Puis',
  },
  handoutTitle: 'Fiche du programme',
  handoutFoot: (label, moment) =>
    `${label}, état au ${moment}. Aide à la décision pour professionnels habilités, pas un dispositif médical ; la notice, les règles locales et l’équipe soignante décident.`,
  handoutCases: (cases) => (cases === 1 ? 'Un cas' : `${cases} cas`),
  handoutHowTo: (address) =>
    `Chaque enregistrement porte un code tiré de son contenu. Pour voir si cette feuille est encore juste, tapez le code à l’adresse ${address} : il est cherché dans tous les cas du programme.`,
  opening: (label) => `Ouverture de ${label} ...`,
  notOpened: (label, reason) => `${label} n’a pas pu être ouvert : ${reason}`,
  caseMissing: (label) => `${label} n’est pas encore là`,
  backToProgramme: 'Retour au programme',
  codeTitle: 'Vérifier un code d’enregistrement du programme',
  codeFoundIn: (label) => `Trouvé dans ${label}`,
  codeLooking: (cases) => `Recherche dans ${counted(cases, 'autre cas', 'autres cas')} ...`,
  codeUnknown:
    'Aucun enregistrement des cas de ce programme que vous pouvez ouvrir n’a ce code. Le papier appartient à un autre cas, ou l’enregistrement a changé après l’impression. N’utilisez pas ce papier.',
  codeNotAll:
    'Tous les cas n’ont pas pu être ouverts : ce code vaut peut-être encore dans l’un d’eux. N’utilisez pas ce papier.',
  wentOn: (label) => `La réunion est passée à ${label}.`,
  follow: 'Suivre',
  stay: 'Rester ici',
}
