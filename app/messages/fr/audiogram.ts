import type { audiogram as English, TestInWords } from '../en/audiogram.ts'
import type { Shape } from '../part.ts'
import { whole } from './numbers.ts'
import { words } from './words.ts'

const { ear: ears, testState: states } = words
const earLetters = { right: 'D', left: 'G' }
const routes = {
  air: 'conduction aérienne',
  bone: 'conduction osseuse',
  'sound-field': 'champ libre',
  aided: 'champ libre avec appareil',
}
const routesShort = { air: 'CA', bone: 'CO', 'sound-field': 'CL', aided: 'appareillé' }
const stamps = { superseded: 'REMPLACÉ', 'entered-in-error': 'SAISI PAR ERREUR' }
const testStates = {
  current: 'Audiogramme en vigueur',
  superseded: 'Audiogramme REMPLACÉ',
  'entered-in-error': 'SAISI PAR ERREUR',
}

const testDetails = ({ ear, condition, performedOn, verifiedBy, verifiedOn }: TestInWords): string =>
  [
    ears[ear].toLowerCase(),
    words.condition[condition].toLowerCase(),
    performedOn,
    verifiedBy === undefined ? 'non validé' : `validé par ${verifiedBy} le ${verifiedOn ?? ''}`,
  ].join(', ')

const masking = (masked: boolean) => (masked ? 'avec masquage' : 'sans masquage')

const pointInWords: typeof English.pointInWords = (point) => {
  switch (point.kind) {
    case 'heard':
      return `${whole(point.level)} dB HL`
    case 'no-response':
      return `pas de réponse à ${whole(point.limit)} dB HL`
    case 'could-not-test':
      return 'non testable'
    default:
      return point satisfies never
  }
}

export const audiogram: Shape<typeof English> = {
  ears,
  earLetters,
  routes,
  states,
  stamps,
  masking,
  levelUnit: 'dB HL',
  frequencyUnit: 'Hz',
  couldNotTest: 'CNT',
  lane: (ear, route) => `${earLetters[ear]} ${routesShort[route]}`,
  stampOf: (ear, state) => `${ears[ear].toUpperCase()} : ${stamps[state]}`,
  question: (number) => `Q${number}`,
  readout: (ear, route, frequency, value) => `${earLetters[ear]} ${routesShort[route]} ${frequency} Hz : ${value}`,
  pointInWords,
  testSentence: (test) => `${testStates[test.state]}, ${testDetails(test)}`,
  testStates,
  testDetails,
  code: 'Code d’enregistrement',
  chartLabel: (shown) => (shown.length === 0 ? 'Audiogramme sans mesure' : `Audiogramme. ${shown.join('. ')}`),
  table: {
    repeat: (dbHl) => `Conduction aérienne répétée à 1000 Hz : ${whole(dbHl)} dB HL`,
    caption: (what) => `${what} : seuils en dB HL`,
    route: 'Voie et masquage',
    row: (route, masked) => `${routes[route]}, ${masking(masked)}`,
    notTested: '–',
    noResponse: (limit) => `pas de réponse à ${whole(limit)}`,
    couldNotTest: 'non testable',
    empty: 'Aucun seuil n’a été saisi.',
    offGrid: 'hors du pas de 5 dB',
  },
}
