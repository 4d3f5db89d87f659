import type { delay as English } from '../en/delay.ts'
import type { Shape } from '../part.ts'
import { fixed } from './numbers.ts'

const seconds = (ms: number): string => fixed(ms / 1000, 1)
const minutesSeconds = (ms: number): string => {
  const whole = Math.floor(ms / 1000)
  return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, '0')}`
}

export const delay: Shape<typeof English> = {
  title: 'Mon retard vidéo',
  why: 'Votre image arrive après l’opération. Une fois votre retard connu, ce que vous demandez, appuyez ou repérez porte le moment que vous regardiez.',
  how: 'L’écran principal montre un nombre qui change toutes les 4 secondes. Regardez-le dans la vidéo, pas sur la page. Appuyez quand il change, puis tapez le nombre apparu. Trois fois.',
  limits: (reactionMs) =>
    `Mesuré de l’écran principal à vous, avec votre temps de réaction d’environ ${seconds(reactionMs)} s (usage courant, sans source). Ce qu’ajoute la liaison du bloc à l’écran principal n’y est pas compris.`,
  markIsDown: 'Le nombre n’est pas encore sur l’écran principal. Demandez au modérateur de l’afficher.',
  putUp: 'Afficher le nombre sur l’écran principal',
  takeDown: 'Retirer le nombre',
  readingClock: 'Lecture de l’horloge du serveur ...',
  clockFailed: 'L’horloge du serveur n’a pas pu être lue.',
  tryAgain: 'Réessayer',
  press: 'Il a changé',
  pressHint: 'Espace ou Entrée, ou un appui',
  pressedHint: 'Appuyé. Si c’était trop tôt, appuyez de nouveau au changement suivant.',
  number: 'Nombre apparu',
  numberHint: '1 à 25',
  take: 'Prendre',
  turn: (number, of) => `Appui ${number} sur ${of}`,
  taken: (ms) => `${seconds(ms)} s`,
  takenTitle: 'Appuis jusqu’ici',
  problem: {
    'no-such-mark': 'Les nombres vont de 1 à 25. Regardez encore, et appuyez au changement suivant.',
    'before-the-change':
      'Vous avez appuyé avant que ce nombre n’apparaisse sur l’écran principal : ce ne peut être un retard. C’est peut-être un autre nombre ; appuyez au changement suivant.',
    'longer-than-any-delay':
      'Ce serait un retard de plus de 90 s, plus long que toute liaison vidéo. C’est peut-être un autre nombre ; appuyez au changement suivant.',
  },
  result: (medianMs) => `Votre retard vidéo est de ${seconds(medianMs)} s`,
  spread: (lowMs, highMs) => `Médiane de trois appuis, de ${seconds(lowMs)} s à ${seconds(highMs)} s.`,
  clockError: (errorMs) => `L’horloge du serveur est connue à ±${Math.max(1, Math.ceil(errorMs))} ms près.`,
  unsteady: 'Les appuis diffèrent de plus de 2 s. Mesurez de nouveau.',
  measuredAt: (moment) => `Mesuré le ${moment}.`,
  again: 'Mesurer de nouveau',
  forget: 'Oublier mon retard',
  forgotten: 'Ce que vous écrivez ne porte plus le moment que vous regardiez.',
  askedWhile: 'Demandé pendant :',
  step: (number, title) => `étape ${number}, ${title}`,
  afterStep: (number, title) => `après l’étape ${number}, ${title}`,
  beforeFirst: 'avant la première étape',
  ago: (ms) => `il y a ${minutesSeconds(ms)}`,
  atClock: (clock) => `à ${clock}`,
}
