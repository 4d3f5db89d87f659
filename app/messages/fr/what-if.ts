import type { whatIf as English } from '../en/what-if.ts'
import type { Shape } from '../part.ts'
import { decimals, fixed, listed, lowered, signed, whole } from './numbers.ts'

const signedHundredth = (value: number): string =>
  Math.abs(value) < 0.005 ? '0,00' : `${value > 0 ? '+' : ''}${fixed(value, 2)}`
const size = (value: number): string => whole(Math.abs(value))
const range = (low: number, high: number): string =>
  `${whole(low).replace('−', 'moins ')} à ${whole(high).replace('−', 'moins ')}`
const times = (value: number): string => decimals(value, value < 10 ? 1 : 0)
const ossicles = { malleus: 'marteau', incus: 'enclume', 'malleus-and-incus': 'marteau et enclume', stapes: 'étrier' }
const years = (value: number): string => `${whole(value)} ${value < 2 ? 'an' : 'ans'}`

export const whatIf: Shape<typeof English> = {
  title: 'Et si …',
  hint: 'Déplacez un curseur ou tapez une valeur : tableau, audiogramme et phrase suivent. Rien n’est écrit tant que ce n’est pas figé ; s le fige et le met à l’écran principal.',
  reset: 'Remettre à zéro',
  asFound: 'Tout tel que trouvé : aucun scénario n’est réglé.',
  under: 'Avec ce scénario',
  underNote: 'Les nombres ici et dans tous les tableaux sont ceux du scénario ci-dessous.',
  slider: {
    fixation: 'La fixation revient',
    fixationAt: 'Où la fixation revient',
    contact: 'Contact partiel',
    malleusIncus: 'Articulation marteau-enclume lâche',
    incusStapes: 'Articulation enclume-étrier lâche',
    apart: 'Enclume et étrier séparés',
    years: 'L’oreille interne vieillit',
    actuator: 'Ce qui stimule',
  },
  sliderHint: {
    fixation: '3 à 10 tissu fibreux, environ 100 un pont osseux, 1000 ossification étendue',
    contact: 'le même à toutes les fréquences ; sa moitié est son ET',
    joint: 'ce qui reste de sa raideur ; 100 % est normal',
    years: 'comme la médiane de l’âge et du sexe',
  },
  place: {
    none: 'nulle part',
    malleus: 'marteau',
    incus: 'enclume',
    'malleus-and-incus': 'marteau et enclume (attique)',
    stapes: 'étrier',
  },
  actuator: { 'floating-mass': 'masse flottante', 'fixed-frame': 'cadre fixe' },
  unit: { times: '× normale', db: 'dB', percent: '% restants', years: 'ans' },
  spokenTimes: (value) => `${times(value)} fois la normale`,
  spokenDb: (value) => `${decimals(value)} décibels`,
  spokenPercent: (value) => `${decimals(value)} pour cent restants`,
  spokenYears: years,
  timesText: times,
  percentText: times,
  typed: (name) => `${name}, valeur`,
  answer: 'Avant le changement et avec lui',
  before: 'Avant',
  after: 'Avec',
  change: 'Évolution',
  changeNote:
    'Évolution du seuil appareillé attendu, dB ; plus est moins bon. Intervalle à 80 % de l’évolution dessous.',
  mean: 'Moyenne 0,5–4 kHz',
  signed: (value) => signed(value),
  signedHundredth,
  to: (low, high) => `${low} à ${high}`,
  noChange: 'pas de valeur',
  lowConfidence: 'confiance faible',
  words: 'Mots',
  speech: { 'quiet-55': 'SII, silence 55', 'quiet-65': 'SII, silence 65', 'noise-65': 'SII, bruit' },
  readAloud: 'À lire à haute voix',
  spoken: {
    fixation: (place, value) => `la fixation revient (${place}), ${times(value)} fois plus raide que la normale`,
    place: ossicles,
    contact: (db) => `le contact coûte ${decimals(db)} décibels`,
    malleusIncus: (left) => `l’articulation marteau-enclume garde ${decimals(left)} pour cent de sa raideur`,
    incusStapes: (left) => `l’articulation enclume-étrier garde ${decimals(left)} pour cent de sa raideur`,
    apart: 'l’enclume et l’étrier se séparent',
    years: (value) => `l’oreille interne vieillit de ${value === 1 ? 'un an' : years(value)}`,
    option: (deviceClass, site) =>
      site === undefined ? lowered(deviceClass) : `${lowered(deviceClass)}, ${lowered(site)}`,
    condition: (parts) => `Si ${listed(parts)}, `,
    mean: (option, value, { low, high }) =>
      Math.round(value) === 0
        ? `notre estimation (${option}) ne change pas le seuil appareillé moyen, avec un intervalle à 80 pour cent de ${range(low, high)} décibels. `
        : `notre estimation (${option}) est un seuil appareillé moyen ${value > 0 ? 'moins bon' : 'meilleur'} de ${size(value)} décibels, avec un intervalle à 80 pour cent de ${range(low, high)} décibels. `,
    noMean: (option) => `notre estimation (${option}) n’a pas d’évolution moyenne, car un nombre manque. `,
    most: (db, frequency) => `Le plus grand changement est de ${size(db)} décibels, à ${frequency}. `,
    words: (points, { low, high }) =>
      Math.round(points) === 0
        ? `Le score de mots ne devrait pas changer (${range(low, high)} points de pourcentage). `
        : `Le score de mots devrait ${points < 0 ? 'baisser' : 'monter'} de ${size(points)} points de pourcentage (intervalle ${points < 0 ? range(-high, -low) : range(low, high)}). `,
    lowConfidence: (frequencies) => `Ce qui est dit à ${listed(frequencies)} est de confiance faible. `,
    noNumber: (frequencies) => `À ${listed(frequencies)} le modèle est de confiance faible et il n’y a pas de nombre. `,
    close:
      'C’est une estimation tirée de données de groupe et d’un modèle de l’oreille moyenne, pas une promesse pour ce patient.',
    refused: (reason) => `il n’y a pas d’estimation. ${reason}`,
  },
  loss: {
    title: 'Ce que les changements ôtent à la stimulation',
    hint: 'Par rapport à l’oreille normale stimulée au même site. Évolutions seules : la sortie absolue n’est connue qu’après le premier réglage de cette oreille.',
    best: 'Meilleure estimation',
    sd: 'ET entre oreilles',
    sets: 'Sur trois réseaux',
    oneSet: 'un seul réseau',
    nothingArrives: 'rien de la stimulation n’arrive',
    skull: 'Stimule le crâne : rien dans la chaîne ne lui coûte.',
  },
  freeze: {
    title: 'Figer ce scénario',
    hint: 'Écrit définitivement question, nombres et intervalles au dossier. Un plus récent peut le remplacer.',
    name: 'Titre',
    question: 'Répond à la question',
    noQuestion: 'aucune',
    supersedes: 'Remplace',
    nothing: 'rien',
    submit: 'Figer',
    andShow: 'Figer et mettre à l’écran principal',
    untitled: 'Un scénario figé a besoin d’un titre.',
    done: 'Le scénario est figé.',
    cannot: (reason) => `Il ne peut pas être figé : ${reason}`,
  },
  frozen: {
    title: 'Scénarios figés',
    open: 'Ouvrir dans les curseurs',
    openNamed: (title) => `Ouvrir dans les curseurs : ${title}`,
    show: 'Mettre à l’écran principal',
    superseded: 'Remplacé',
    answers: (question) => `Répond à : ${question}`,
    change: (value) => `${signed(value)} dB en moyenne`,
  },
  found: {
    title: 'En quoi cette oreille diffère, pour le modèle',
    hint: 'Sans entrée, on suppose que l’oreille se couple comme celles des données.',
    add: 'Ajouter un constat',
    choose: 'Choisir …',
    remove: (finding) => `Supprimer : ${finding}`,
    suggest: (findings) => `Reprendre des osselets : ${findings.join(' ; ')}`,
  },
  finding: {
    'ligament-stiffened': (place, value) => `Ligament (${place}) ${times(value)} fois plus raide`,
    'ligament-fixed': (place) => `Ligament (${place}) : rien ne cède`,
    ligament: {
      malleus: 'marteau',
      incus: 'enclume',
      'malleus-and-incus': 'marteau et enclume',
      annular: 'étrier (annulaire)',
    },
    'incus-bridge': (value) => `Pont de la paroi de l’attique à l’enclume, ${decimals(value)} N/m`,
    'joint-slack': (joint, left) => `Articulation ${joint} lâche, ${decimals(left)} % restants`,
    'joint-ankylosed': (joint) => `Articulation ${joint} soudée`,
    joint: { 'malleus-incus': 'marteau-enclume', 'incus-stapes': 'enclume-étrier' },
    'incus-stapes-apart': 'Enclume et étrier séparés',
    'incus-missing': 'Enclume absente',
    'stapes-superstructure-missing': 'Superstructure de l’étrier absente',
    'cavity-open': 'Cavité mastoïdienne ouverte',
    'eardrum-absent': 'Pas de tympan',
    site: {
      malleus: 'marteau',
      'incus-body': 'corps de l’enclume',
      'incus-long-process': 'longue apophyse de l’enclume',
      'stapes-head': 'tête de l’étrier',
      'oval-window': 'fenêtre ovale',
      'round-window': 'fenêtre ronde',
    },
    'mass-added': (site, mg) => `${decimals(mg)} mg posés (${site})`,
    'contact-loss': (db, sd) => `Le contact coûte ${decimals(db)} dB (ET ${decimals(sd)})`,
    'incus-axis-compliant': 'L’axe de l’enclume cède (exploratoire)',
    'third-window': 'Troisième fenêtre (exploratoire)',
  },
}
