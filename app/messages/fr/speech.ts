import type { speech as English } from '../en/speech.ts'
import type { Shape } from '../part.ts'
import { decimals, fixed, percent } from './numbers.ts'
import { agreements, speechMaterial, toneAverages } from './speech-terms.ts'

const decibels = (value: number): string => decimals(value, 1)

export const speech: Shape<typeof English> = {
  heading: 'Audiométrie vocale',
  none: 'Aucun test vocal n’a été saisi.',
  enter: 'Saisir un score',
  enterReception: 'Saisir un seuil vocal',
  close: 'Fermer',
  fields: {
    ear: 'Oreille',
    ears: { right: 'Droite', left: 'Gauche', both: 'Les deux' },
    condition: 'Condition',
    performedOn: 'Date',
    material: 'Matériel',
    materials: speechMaterial,
    listName: 'Liste',
    items: 'Nombre d’items',
    right: 'Justes, ou %',
    speechLevel: 'Parole, dB SPL',
    noiseLevel: 'Bruit, dB SPL',
    quiet: 'silence',
    measured: 'Mesuré',
    receptionThreshold: 'Seuil, dB HL',
    note: 'Remarque',
  },
  submit: 'Saisir',
  measured: { score: 'Score vocal', reception: 'Seuil' },
  keys: 'Entrée prend le test depuis n’importe quel champ ; le suivant reprend les mêmes réglages.',
  willReplace: (count) =>
    count === 1
      ? 'Celui en vigueur avec ces réglages sera remplacé.'
      : `Les ${count} en vigueur avec ces réglages seront remplacés.`,
  replacedBecause: (calendarDay) => `Mesuré de nouveau le ${calendarDay}`,
  entered: (right, items) => `Saisi : ${right} justes sur ${items}.`,
  enteredReception: (dbHl) => `Saisi : seuil d’intelligibilité ${decibels(dbHl)} dB HL.`,
  faults: {
    missing: 'Donnez ce nombre.',
    'not-a-whole-number': 'Un nombre entier, s’il vous plaît.',
    'not-a-number': 'Ce n’est pas un nombre.',
    'not-a-day': 'Donnez la date du test.',
    'future-day': 'Ce jour n’est pas encore venu.',
    'out-of-range': (low, high) => `De ${decibels(low)} à ${decibels(high)}.`,
    'more-than-items': (items) => `La liste n’a que ${items} items.`,
    'percent-out-of-range': 'De 0 à 100 %.',
    'percent-between-items': (below, above, items) =>
      `Se trouve entre ${below} et ${above} sur ${items}. Donnez le nombre de justes.`,
    'too-long': (length, most) => `${length} caractères ; ${most} sont gardés.`,
  },
  reception: 'Seuil d’intelligibilité',
  receptionOf: (dbHl) => `seuil d’intelligibilité ${decibels(dbHl)} dB HL`,
  receptionValue: (dbHl) => `${decibels(dbHl)} dB HL`,
  receptionHow:
    'Le niveau auquel la moitié des items est juste. Il est comparé aux sons purs de la même oreille le même jour.',
  tones: {
    agree: (apart, grade) =>
      `Concorde avec les sons purs : ${decibels(Math.abs(apart))} dB d’écart (${agreements[grade]})`,
    better: (by) => `${decibels(by)} dB de mieux que ne le permettent les sons purs`,
    poorer: (by) => `${decibels(by)} dB de moins que ne le laissent attendre les sons purs`,
    noAverage: 'Non comparé aux sons purs : 0,5 ; 1 et 2 kHz ne sont pas tous mesurés.',
    noTest: 'Non comparé aux sons purs : pas d’audiogramme de cette oreille ce jour-là.',
    withDevice: 'Avec un appareil, il n’est pas comparé aux sons purs.',
  },
  toneAverage: (name, dbHl, day) => `${name} : ${decibels(dbHl)} dB HL (audiogramme du ${day}).`,
  toneAverages,
  score: (right, items) => `${right} sur ${items}`,
  percent,
  interval: (low, high) => `intervalle à 95 % : ${percent(low)} à ${percent(high)}`,
  noInterval: 'pas d’intervalle : les phonèmes d’un mot dépendent les uns des autres',
  sentencesRemark: 'vaut si les phrases entières ont été comptées, pas leurs mots',
  inQuiet: (dbSpl) => `${decibels(dbSpl)} dB SPL dans le silence`,
  inNoise: (dbSpl, noise) => `${decibels(dbSpl)} dB SPL dans un bruit de ${decibels(noise)} dB SPL`,
  change: {
    higher: (score, day) => `Mieux que ${score} le ${day}`,
    lower: (score, day) => `Moins bien que ${score} le ${day}`,
    'no-significant-difference': (score, day) => `Ne se distingue pas de ${score} le ${day}`,
  },
  benefit: {
    higher: (score) => `Mieux avec l’appareil que sans (${score})`,
    lower: (score) => `Moins bien avec l’appareil que sans (${score})`,
    'no-significant-difference': (score) => `Avec l’appareil, ne se distingue pas de sans (${score})`,
  },
  borderline: 'à la limite : un mot renverserait le résultat',
  critical: (lowest, highest, items) =>
    `Plage critique : ${lowest} à ${highest} justes sur ${items} ne se distinguent pas (95 %).`,
  transferWords: { nu6: 'les mots NU-6', 'cid-w22': 'les mots W-22' },
  expected: {
    'as-expected': (words, score) => `Comme l’audiogramme le prédit pour ${words} (${score})`,
    below: (words, score) => `Sous ce que l’audiogramme prédit pour ${words} (${score})`,
    above: (words, score) => `Au-dessus de ce que l’audiogramme prédit pour ${words} (${score})`,
    'cannot-tell': (words, score) => `Indécidable par rapport à la prédiction pour ${words} (au plus ${score})`,
  },
  expectedOfStandIn: {
    'as-expected': (words, score) => `Comme donneraient ${words} avec cet audiogramme (${score})`,
    below: (words, score) => `Sous ce que donneraient ${words} avec cet audiogramme (${score})`,
    above: (words, score) => `Au-dessus de ce que donneraient ${words} avec cet audiogramme (${score})`,
    'cannot-tell': (words, score) => `Indécidable par rapport à ce que donneraient ${words} (au plus ${score})`,
  },
  standIn: 'en remplacement de cette liste',
  expectedRange: (lowest, highest, items) =>
    `${lowest} à ${highest} justes sur ${items} sont attendus par le seul hasard (95 %).`,
  expectedIndex: (index, upperBound, day, words) =>
    `Indice d’intelligibilité de la parole (SII) ${upperBound ? 'au plus ' : ''}${fixed(index, 2)} d’après l’audiogramme du ${day}, importance selon ${words}.`,
  expectedByName: (words) =>
    `L’enregistrement nomme sa liste comme ${words} ; une autre version enregistrée donne d’autres scores.`,
  expectedByStandIn:
    'Les mots NU-6 servent de remplacement : aucune fonction de transfert de cette liste n’est connue ici, seulement celles de NU-6 et W-22. D’autres mots, un autre enregistrement ou une autre langue donnent d’autres scores : ce n’est qu’un repère grossier.',
  notExpected: {
    'both-ears': 'Pas de prédiction : les deux oreilles ensemble.',
    material:
      'Pas de prédiction : aucune fonction de transfert n’est connue ici pour ce matériel, et aucune ne la remplace.',
    'no-audiogram': 'Pas de prédiction : pas d’audiogramme de cette oreille dans cette condition.',
    level: 'Pas de prédiction : le niveau est hors de 0 à 120 dB SPL.',
  },
  rollover: {
    title: (index) => `Indice de chute (rollover) ${fixed(index, 2)}`,
    points: (best, bestLevel, poorest, poorestLevel) =>
      `${best} à ${decibels(bestLevel)} dB SPL, ${poorest} à ${decibels(poorestLevel)} dB SPL.`,
    significant: 'La chute dépasse la différence critique.',
    chance: 'La chute reste dans la différence critique : c’est peut-être le hasard.',
    exceeds: (names) => `Dépasse la limite pour ${names.join(' ; ')}.`,
    exceedsNone: 'Ne dépasse aucune des limites publiées.',
    'no-level-above-best': 'La chute ne peut être jugée : le meilleur score est au niveau le plus fort.',
    'nothing-correct': 'La chute ne peut être jugée : rien n’était juste à aucun niveau.',
    criteria: {
      'pb-jerger-1971': 'mots PB, Jerger et Jerger 1971',
      'nu6-bess-1979': 'NU-6, Bess et al. 1979',
      'nu6-meyer-1985': 'NU-6, Meyer et Mishler 1985',
    },
  },
  how: 'Mode de calcul',
  state: { verified: (name, day) => `Validé par ${name}, ${day}`, notVerified: 'Non validé' },
  enteredBy: (name, day) => `Saisi par ${name}, ${day}`,
  closed: (name, day, reason) => `${name}, ${day} : ${reason}`,
  acts: {
    verify: 'Valider',
    supersede: 'Marquer comme remplacé',
    error: 'Saisi par erreur',
    reinstate: 'Remettre en vigueur',
  },
  verifyTitle: 'Valider ce test vocal',
  verifyText: 'Vous confirmez que score, liste, niveau, oreille, condition et date sont justes.',
  done: 'C’est fait.',
  sentence: (parts) => parts.join(', '),
}
