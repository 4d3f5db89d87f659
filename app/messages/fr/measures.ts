import type { measures as English } from '../en/measures.ts'
import type { Shape } from '../part.ts'
import { findingSentences } from './findings.ts'
import { decimals, fixed, kilohertz, percent, signed, whole } from './numbers.ts'
import { agreements, speechMaterial, toneAverages } from './speech-terms.ts'

const ears = { right: 'Droite', left: 'Gauche' }
const earNames = { right: 'droite', left: 'gauche' }
const lossTypes = {
  none: 'pas de perte',
  conductive: 'de transmission',
  mixed: 'mixte',
  sensorineural: 'de perception',
  unknown: 'indéterminé',
}
const statusWords = {
  confirmed: 'confirmé : vu dans la source ou une copie publique',
  'from memory, unconfirmed': 'de mémoire, non confirmé',
  'common practice, no source': 'usage courant, sans source',
}
const statusShort = {
  confirmed: '',
  'from memory, unconfirmed': 'de mémoire, non confirmé',
  'common practice, no source': 'sans source',
}
const inputHow = {
  measured: '',
  'no-response': ' ou pire (pas de réponse)',
  'no-response-by-scheme': ' (pas de réponse : valeur de la convention)',
  interpolated: ' (moyenne de 2000 et 4000 Hz)',
}
const changeVerdicts = {
  better: 'mieux',
  worse: 'moins bien',
  'within test-retest error': 'dans l’erreur test-retest',
  'cannot tell': 'indécidable',
}
const ageVerdicts = {
  'as expected': 'comme attendu',
  'worse than expected': 'moins bien qu’attendu',
  'better than expected': 'mieux qu’attendu',
  'cannot tell': 'indécidable',
}

/** The grades of the four scales (lib/audiometry/grades.ts). */
const grades: Readonly<Record<string, string>> = {
  normal: 'normale',
  slight: 'très légère',
  mild: 'légère',
  moderate: 'moyenne',
  'moderately severe': 'moyennement sévère',
  severe: 'sévère',
  profound: 'profonde',
  complete: 'totale',
  'I normal or subnormal': 'I normale ou subnormale',
  'II mild': 'II légère',
  'III moderate, 1st degree': 'III moyenne, 1er degré',
  'III moderate, 2nd degree': 'III moyenne, 2e degré',
  'IV severe, 1st degree': 'IV sévère, 1er degré',
  'IV severe, 2nd degree': 'IV sévère, 2e degré',
  'V very severe, 1st degree': 'V très sévère, 1er degré',
  'V very severe, 2nd degree': 'V très sévère, 2e degré',
  'V very severe, 3rd degree': 'V très sévère, 3e degré',
  'VI total (cophosis)': 'VI totale (cophose)',
  'below 20 dB HL': 'sous 20 dB HL',
}

const difference: typeof English.difference = (value) => {
  switch (value.kind) {
    case 'exact':
      return `${decimals(value.value)} dB`
    case 'at-least':
      return `≥ ${decimals(value.value)} dB`
    case 'at-most':
      return `≤ ${decimals(value.value)} dB`
    case 'undetermined':
      return 'indéterminé'
    default:
      return value satisfies never
  }
}

export const measures: Shape<typeof English> = {
  headings: { quoted: 'Mesures', further: 'Vocale, appareil et évolution' },
  ears,
  notTested: 'non testé',
  noValue: 'incomplet',
  how: 'Mode de calcul',
  level: (value, lowerBound) => `${lowerBound ? '≥ ' : ''}${decimals(value)} dB HL`,
  difference,
  missing: (frequencies) => `${kilohertz(frequencies)} non testé`,
  names: {
    'air-who': 'PTM 0,5 ; 1 ; 2 ; 4 kHz',
    'air-biap': 'PTM 0,5 ; 1 ; 2 ; 4 kHz',
    'air-asha': 'PTM 0,5 ; 1 ; 2 kHz',
    'air-aao': 'PTM 0,5 ; 1 ; 2 ; 3 kHz',
    'grade-who': 'Degré de perte',
    'grade-biap': 'Degré de perte',
    'grade-asha': 'Degré de perte',
    'bone-who': 'Conduction osseuse 0,5 ; 1 ; 2 ; 4 kHz',
    'bone-asha': 'Conduction osseuse 0,5 ; 1 ; 2 kHz',
    'bone-aao': 'Conduction osseuse 0,5 ; 1 ; 2 ; 3 kHz',
    'gap-who': 'Rinne 0,5 ; 1 ; 2 ; 4 kHz',
    'gap-asha': 'Rinne 0,5 ; 1 ; 2 kHz',
    'gap-aao': 'Rinne 0,5 ; 1 ; 2 ; 3 kHz',
    type: 'Type de surdité',
    high: 'Aigus 4, 6, 8 kHz',
    age: 'Oreille interne selon âge et sexe',
    'reception-unaided': 'Seuil d’intelligibilité',
    'reception-aided': 'Seuil d’intelligibilité appareillé',
    'words-unaided': 'Score de mots sans appareil',
    'words-aided': 'Score de mots avec appareil',
    'index-unaided': 'Indice d’intelligibilité (SII)',
    'index-aided': 'Indice avec appareil',
    'functional-gain': 'Gain fonctionnel 0,5 ; 1 ; 2 ; 4 kHz',
    'effective-gain': 'Gain effectif 0,5 ; 1 ; 2 ; 4 kHz',
    'air-change': 'Conduction aérienne, évolution',
    'bone-change': 'Conduction osseuse, évolution',
    'better-ear': 'Degré, meilleure oreille',
    asymmetry: 'Asymétrie',
  },
  conventions: {
    'air-who': 'OMS 2021',
    'air-biap': 'BIAP 02/1 bis, arrondi au-dessus',
    'air-asha': 'selon ASHA 1988',
    'air-aao': 'selon AAO-HNS 1995',
    'grade-who': 'échelle OMS 2021',
    'grade-biap': 'échelle BIAP 02/1 bis',
    'grade-asha': 'échelle Clark 1981 (ASHA)',
    'bone-who': 'fréquences de l’OMS 2021',
    'bone-asha': 'fréquences de l’ASHA 1988',
    'bone-aao': 'selon AAO-HNS 1995',
    'gap-who': 'fréquences de l’OMS 2021, même test',
    'gap-asha': 'fréquences de l’ASHA 1988, même test',
    'gap-aao': 'AAO-HNS 1995, même test',
    type: 'rinne > 10 dB, perte > 15 dB HL',
    high: 'conduction aérienne',
    'reception-unaided': 'moitié des items justes',
    'reception-aided': 'moitié des items justes',
    'words-unaided': 'monosyllabes dans le silence',
    'words-aided': 'monosyllabes dans le silence',
    'index-unaided': 'parole à 65 dB SPL dans le silence',
    'index-aided': 'parole à 65 dB SPL dans le silence',
    'functional-gain': 'champ libre − appareillé',
    'effective-gain': 'CO − appareillé ; 0 : rinne fermé',
    'better-ear': 'OMS 2021',
    asymmetry: 'cinq règles',
  },
  quoteBy: 'Citer d’abord',
  conventionNames: { who: 'OMS 2021', biap: 'BIAP', asha: 'Clark / ASHA', aao: 'AAO-HNS 1995' },
  otherConventions: 'Selon les autres conventions',
  ageConvention: (edition) => `ISO 7029:${edition}, 10 à 90 %`,
  changeConvention: 'par rapport au test précédent, répétabilité ISO 8253-1',
  lossTypes,
  unknownBecause: {
    'air-missing': 'la conduction aérienne est incomplète',
    'bone-missing': 'la conduction osseuse est incomplète',
    'no-response': '« pas de réponse » laisse plusieurs types possibles',
  },
  gradeWords: (grade, orWorse) => (orWorse ? `au moins ${grades[grade] ?? grade}` : (grades[grade] ?? grade)),
  unilateral: 'surdité unilatérale',
  uncertain3000: '3 kHz interpolé, incertain : 2 et 4 kHz diffèrent de plus de 15 dB',
  interpolated3000: '3 kHz interpolé à partir de 2 et 4 kHz',
  howWords: {
    inputs: 'Données',
    air: 'Conduction aérienne',
    bone: 'Conduction osseuse',
    soundField: 'Champ libre',
    aided: 'Appareillé',
    formula: 'Formule',
    missing: 'Manquant',
    tests: 'Audiogrammes',
    source: 'Référence',
    status: 'Statut',
    reservation: 'Réserve',
    byFrequency: 'Par fréquence',
    range: 'Par hasard',
    audible: 'Audible à',
    sign: 'Signe',
  },
  input: (frequency, level, masked, how) =>
    `${frequency} Hz ${decimals(level)}${masked ? ' masqué' : ''}${inputHow[how]}`,
  meanFormula: (levels, result) =>
    `(${levels.map((level) => decimals(level)).join(' + ')}) / ${levels.length} = ${result}`,
  minusFormula: (minuend, subtrahend, result) => `${minuend} − ${subtrahend} = ${result}`,
  typeFormula: (air, bone, gap) => `CA ${air}, CO ${bone}, rinne ${gap}`,
  gradeFormula: (average) => `degré de la moyenne non arrondie ${average}`,
  testOf: (condition, day) => `${condition}, ${day}`,
  atFrequency: (frequency, text) => `${frequency} Hz ${text}`,
  wordScore: (proportion, low, high) => `${percent(proportion)} (${whole(100 * low)} à ${whole(100 * high)})`,
  wordScoreAt: (level, right, items, day) => `${right} justes sur ${items} à ${decimals(level)} dB SPL, ${day}`,
  wordScoreRemark: (level) => `à ${decimals(level)} dB SPL`,
  materials: speechMaterial,
  reception: {
    test: (material, day) => `${material}, ${day}`,
    averages: toneAverages,
    difference: (value) => `${decimals(value)} dB`,
    agreement: (value, grade) =>
      `${value === 0 ? 'identique aux' : `${decimals(Math.abs(value))} dB ${value < 0 ? 'mieux que les' : 'moins bien que les'}`} sons purs : concordance ${agreements[grade]}`,
  },
  index: (value, upperBound) => `${upperBound ? '≤ ' : ''}${fixed(value, 2)}`,
  indexHow: {
    formula: 'somme sur les bandes de tiers d’octave : importance × audibilité',
    band: (frequency, audible) => `${frequency} Hz ${percent(audible)}`,
    conductive: {
      'from-bone-conduction': 'la part de transmission n’ajoute pas de distorsion de niveau',
      'not-known': 'pas de conduction osseuse : toute la perte est comptée à l’oreille interne',
    },
    beyondLimit: (frequencies) => `borne supérieure : une absence de réponse pèse sur ${kilohertz(frequencies)}`,
    held: (frequencies) => `hors du domaine testé, seuil le plus proche gardé : ${kilohertz(frequencies)}`,
  },
  change: {
    better: (frequencies) => `↑ mieux ${kilohertz(frequencies)}`,
    worse: (frequencies) => `↓ moins bien ${kilohertz(frequencies)}`,
    within: '≈ dans l’erreur',
    unknown: (frequencies) => `indécidable ${kilohertz(frequencies)}`,
    since: (day) => `depuis le ${day}`,
    at: (frequency, low, high, verdict) =>
      `${frequency} Hz ${low === high ? signed(low, 2) : `${signed(low, 2)} à ${signed(high, 2)}`} : ${changeVerdicts[verdict]}`,
    range: (frequency, range) => `${frequency} Hz ±${decimals(range)}`,
    sign: 'positif : moins bien',
  },
  age: {
    asExpected: 'comme attendu',
    worse: (frequencies) => `moins bien ${kilohertz(frequencies)}`,
    better: (frequencies) => `mieux ${kilohertz(frequencies)}`,
    unknown: (frequencies) => `indécidable ${kilohertz(frequencies)}`,
    outside: (age) => `pas de norme à ${age} ans`,
    at: (frequency, from, to, verdict) =>
      `${frequency} Hz attendu ${whole(from)} à ${whole(to)} : ${ageVerdicts[verdict]}`,
    formula: 'conduction osseuse comparée aux percentiles 10 à 90 du groupe d’âge',
  },
  asymmetry: {
    met: (ear) => (ear === undefined ? 'asymétrique' : `oreille ${earNames[ear]} moins bonne`),
    notMet: 'pas d’asymétrie',
    notEvaluable: 'non évaluable',
    rule: (id) =>
      ({
        'rule-3000': '15 dB à 3 kHz',
        cns: '10 dB à deux voisines ou 15 dB à une',
        aao15: 'moyenne 15 dB ou mots 15 points',
        ng98: '15 dB à deux voisines',
        uk20: '20 dB à deux voisines',
      })[id],
    outcomes: { asymmetric: 'asymétrique', 'not asymmetric': 'pas d’asymétrie', 'not evaluable': 'non évaluable' },
    count: (met, all) => `${met} règles remplies sur ${all}`,
    missing: (frequencies) => `manque ${kilohertz(frequencies)}`,
    wordScoresMissing: 'scores de mots manquants',
  },
  statusWords,
  statusShort,
  findings: {
    heading: 'À regarder',
    none: 'Rien à signaler pour le masquage ni la plausibilité.',
    noTest: 'Les remarques demandent un test sans appareil.',
    severity: { urgent: 'À voir d’urgence', check: 'À vérifier', remark: 'Remarque' },
    alsoAt: (frequencies) => `Aussi à ${kilohertz(frequencies)}.`,
    show: (place) => `Montrer sur l’audiogramme : ${place}`,
    place: (frequency) => kilohertz([frequency]),
    whatToDo: 'Que faire',
    why: 'Pourquoi',
    sentences: findingSentences,
  },
  overlays: {
    legend: 'Superposer à l’audiogramme',
    age: 'Norme d’âge',
    speech: 'Parole',
    forecast: 'Prévision',
    ageLegend: (edition, sex, age) =>
      `Conduction aérienne de 80 % des personnes otologiquement normales (${sex}, ${age} ans) et leur médiane, ISO 7029:${edition}`,
    sex: { female: 'femmes', male: 'hommes' },
    speechLegend:
      'Où se trouve la parole de 65 dB SPL : les 30 dB des parties les plus faibles aux plus fortes, ANSI S3.5-1997',
    heardLegend: (ear, condition, share, upperBound) =>
      `Entendu par l’oreille ${earNames[ear]}, ${condition} : ${upperBound ? 'au plus ' : ''}${percent(share)} de l’information`,
    forecastLegend: (ear) => `Prévision des seuils appareillés, oreille ${earNames[ear]} : intervalle à 80 % et milieu`,
    refused: {
      'age-not-stated': 'L’âge n’est pas dans l’en-tête du cas.',
      'sex-not-stated': 'La norme demande le sexe, et l’en-tête du cas ne le donne pas.',
      'age-outside': (age, youngest, oldest) =>
        `ISO 7029:2017 vaut de ${youngest} à ${oldest} ans ; le cas a ${age} ans.`,
      'no-thresholds': 'Il n’y a pas de seuil à comparer à la parole.',
      'no-forecast': 'Pas de prévision : le plan ou un test est incomplet.',
    },
  },
}
