import type { theatre as English } from '../en/theatre.ts'
import type { Shape } from '../part.ts'

export const theatre: Shape<typeof English> = {
  title: 'Vue du bloc',
  lost: {
    link: (since) => `LIAISON PERDUE depuis ${since}`,
    store: (since) => `NON ENREGISTRÉ depuis ${since}`,
  },
  mayBeOld: 'Vue peut-être périmée',
  linking: 'Liaison au tableau',
  notAdmitted: 'Ce lien n’est pas admis',
  inStep: (time) => `${time} dans cette étape`,
  inTotal: (time) => `${time} au total`,
  now: 'Maintenant',
  next: 'Ensuite',
  nextNumber: (number) => `Ensuite : étape ${number}`,
  numbered: (number, step) => `${number}. ${step}`,
  openBefore: (steps, total) =>
    `${total === 1 ? 'Encore' : `${total} encore`} en suspens avant elle : ${steps.join(' ; ')}`,
  lastStep: 'C’est la dernière étape',
  question: 'Question',
  noQuestion: 'Aucune question n’est appelée',
  contingencies: 'Éventualités',
  noContingencies: 'Aucune n’est surveillée',
  more: (count) => `${count} de plus sur le tableau`,
  lastNote: { finding: 'Dernier constat', decision: 'Dernière décision' },
  noSteps: 'Aucune étape n’a encore été écrite',
  asks: (name, role) => `${name}, ${role}`,
}
