import type { code as English } from '../en/code.ts'
import type { Shape } from '../part.ts'

export const code: Shape<typeof English> = {
  title: 'Vérifier un code d’enregistrement',
  explanation:
    'Tapez le code qui figure à côté d’un enregistrement sur une feuille imprimée. Majuscules et minuscules se valent, tirets et espaces ne comptent pas.',
  label: 'Code d’enregistrement',
  check: 'Vérifier',
  problem: {
    length: (characters, expected) =>
      characters === 0
        ? `Tapez les ${expected} caractères du code.`
        : `Un code a ${expected} caractères ; celui-ci en a ${characters}. Comparez avec le papier.`,
    character: (character, position) =>
      `« ${character} » à la place ${position} n’existe pas dans un code. Comparez avec le papier.`,
    check: 'Un caractère est faux ou deux sont inversés : ce code ne peut pas exister. Comparez avec le papier.',
  },
  answer: {
    current: 'En vigueur',
    superseded: (day) => `Remplacé le ${day}`,
    'entered-in-error': (day) => `Saisi par erreur, marqué le ${day}`,
    unknown: 'Inconnu ici',
  },
  current: 'Le papier dit ce que dit le tableau, et c’est l’enregistrement à utiliser.',
  superseded: 'L’enregistrement était juste à l’impression, mais un autre l’a remplacé. N’utilisez pas ce papier.',
  'entered-in-error': 'L’enregistrement n’aurait pas dû être saisi. N’utilisez pas ce papier.',
  unknown:
    'Aucun enregistrement de ce cas n’a ce code. Le papier appartient à un autre cas, ou l’enregistrement a changé après l’impression. N’utilisez pas ce papier pour ce cas.',
  because: (reason) => `Motif : ${reason}`,
  replacedBy: (code) => `${code} le remplace.`,
  waiting: 'En attente du tableau ...',
  mayBeOld: (since) => `La liaison est perdue depuis ${since} ; la réponse est peut-être périmée.`,
  toHandout: 'Imprimer une nouvelle fiche',
}
