import type { votes as English } from '../en/votes.ts'
import type { Shape } from '../part.ts'
import { counted, whole } from './numbers.ts'

const percent = (value: number): string => `${whole(value)} %`

export const votes: Shape<typeof English> = {
  title: 'Votes',
  open: 'Ouvrir un vote',
  question: 'Question du vote',
  about: 'À propos de la décision',
  aboutNothing: 'Aucune note de décision : question libre',
  option: (number) => `Choix ${number}`,
  optionHint: 'Deux à six, tous différents. Les vides sont omis.',
  asksConfidence: 'Demander à chacun son degré de certitude, 50 à 100 %',
  start: 'Lancer le vote',
  missing: 'Écrivez d’abord quelque chose.',
  tooFew: 'Un vote a au moins deux choix différents.',
  tooLong: (limit) => `Au plus ${limit} caractères.`,
  started: 'Le vote est ouvert.',

  barTitle: (question) => `Vote : ${question}`,
  secret: 'Secret jusqu’à la clôture par le modérateur. D’ici là, vous pouvez changer d’avis.',
  cast: 'Voter',
  howSure: 'À quel point en êtes-vous sûr ? Un appui enregistre votre vote.',
  sure: percent,
  notSaying: 'Voter sans le dire',
  youVoted: (option) => `Vous avez voté : ${option}`,
  youVotedSure: (option, confidence) => `Vous avez voté : ${option}, sûr à ${percent(confidence)}`,
  casting: 'Envoi du vote ...',
  watching: 'Les experts et l’équipe votent. Le résultat paraît quand le modérateur clôt le vote.',
  turnout: (count) => `${counted(count, 'personne a voté', 'personnes ont voté')} jusqu’ici`,
  close: 'Clore et montrer le résultat',
  withdraw: 'Retirer le vote',
  withdrawReally: 'Le retirer avec tous les bulletins',
  closed: 'Le vote est clos.',

  resultOf: (question) => `Résultat : ${question}`,
  votes: (count) => counted(count, 'voix', 'voix'),
  confidence: (low, median, high) =>
    low === high ? `sûrs à ${percent(median)}` : `sûrs à ${percent(median)} (${percent(low)} à ${percent(high)})`,
  allConfidence: (low, median, high) =>
    `Certitude médiane de tous ${percent(median)}, de ${percent(low)} à ${percent(high)}`,
  notVoted: (count) =>
    count === 0 ? 'Tous ont voté' : counted(count, 'personne n’a pas voté', 'personnes n’ont pas voté'),
  closedAt: (moment) => `Clos le ${moment}`,
  aboutNote: (words) => `À propos de : ${words}`,
  screen: 'Écran principal',
  stillOpen: 'Ouvert : votez sur votre tableau',
  kind: 'Vote',
  inTheatre: { open: 'Vote en cours', closed: 'Vote clos' },
}
