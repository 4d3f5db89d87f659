import type { PointFault } from '@/lib/interchange/point-text.ts'
import type { hearing as English } from '../en/hearing.ts'
import type { Shape } from '../part.ts'
import { decimals, whole } from './numbers.ts'

export type Sentences<Fault extends { code: string }> = {
  readonly [C in Fault['code']]: (fault: Extract<Fault, { code: C }>) => string
}

export const pointFaults: Sentences<PointFault> = {
  'not-a-level': ({ text }) =>
    `« ${text} » n’est pas un niveau. Écrivez un nombre comme 45 ou −5, « NR 110 » pour pas de réponse à 110, ou « CNT » pour non testable.`,
  'wrong-unit': ({ unit }) => `« ${unit} » n’est pas l’unité de cette colonne. Donnez le niveau en dB HL.`,
  'level-out-of-range': ({ value, low, high }) =>
    `${decimals(value)} dB HL est hors limites. Un niveau va de ${whole(low)} à ${whole(high)} dB HL.`,
  'no-response-needs-level': () =>
    'À quel niveau n’y a-t-il pas eu de réponse ? Écrivez-le d’abord : la limite usuelle de l’audiomètre n’est pas connue ici.',
}
const pointFault = (fault: PointFault): string => (pointFaults[fault.code] as (fault: PointFault) => string)(fault)

const earNames = { right: 'droite', left: 'gauche' }

export const hearing: Shape<typeof English> = {
  title: 'Audition',
  chart: 'Audiogramme',
  ears: {
    legend: 'Oreilles sur l’audiogramme',
    together: 'Les deux',
    apart: 'Côte à côte',
    right: 'Droite',
    left: 'Gauche',
  },
  extended: 'Jusqu’à 16 kHz',
  others: 'Avec champ libre et appareil',
  alsoDrawn: 'Aussi tracés',
  numbers: 'Valeurs',
  modes: {
    legend: 'Sur l’audiogramme',
    look: 'Regarder',
    plot: 'Saisir',
    pin: 'Repère ou bande',
  },
  hints: {
    plot: 'Appuyez où se trouve le seuil, glissez pour corriger, relâchez pour saisir. Appuyez de nouveau sur un signe pour « pas de réponse », tirez-le pour le déplacer.',
    pin: 'Appuyez à un endroit pour un repère ; appuyez à une fréquence et relâchez à une autre pour une bande.',
    picking:
      'La question attend un emplacement : appuyez ici. Pour une bande, appuyez à une fréquence et relâchez à une autre.',
  },
  brush: {
    legend: 'Saisie',
    half: 'Avec demi-octaves',
    lastEntered: (what) => `Saisi : ${what}`,
    noResponse: 'Pas de réponse',
    heard: 'Entendu',
    remove: 'Ôter',
  },
  noTest: {
    title: (ear) => `Pas encore d’audiogramme de l’oreille ${earNames[ear]}`,
    text: 'Saisissez-en un à la main ou importez un tableau.',
  },
  test: {
    heading: 'Audiogrammes',
    none: 'Aucun audiogramme n’a été saisi.',
    enter: 'Nouvel audiogramme',
    import: 'Importer',
    verify: 'Valider',
    supersede: 'Marquer comme remplacé',
    error: 'Marquer comme saisi par erreur',
    reinstate: 'Remettre en vigueur',
    entered: (name, day) => `Saisi par ${name}, ${day}`,
    imported: (name, day) => `Importé par ${name}, ${day}`,
    closed: (name, day, reason) => `${name}, ${day} : ${reason}`,
    closedForEditing:
      'Validé : ses valeurs sont closes. Pour les corriger, saisissez un nouvel audiogramme qui le remplace.',
    notCurrent: 'Plus en vigueur : ses valeurs sont closes.',
    done: 'C’est fait.',
    verifyTitle: 'Valider cet audiogramme',
    verifyText:
      'Vous confirmez que ces valeurs sont celles de l’audiogramme et que l’oreille, la condition et la date sont justes. Ensuite elles sont closes.',
    verifyEmpty: 'Rien à valider encore : aucun seuil n’a été saisi.',
    device: (device) => `Dispositif : ${device}`,
    note: (note) => `Remarque : ${note}`,
  },
  reason: {
    label: 'Motif',
    hint: 'Figure au dossier à côté de l’audiogramme.',
    missing: 'Donnez d’abord le motif.',
    supersede: 'Marquer cet audiogramme comme remplacé',
    error: 'Marquer cet audiogramme comme saisi par erreur',
    errorText: 'Une saisie par erreur reste au dossier, barrée, et ne peut plus être remise en vigueur.',
    reinstate: 'Remettre cet audiogramme en vigueur',
    reinstateText: 'Il remplacera l’audiogramme actuellement en vigueur.',
    submit: 'Marquer',
  },
  newTest: {
    title: 'Nouvel audiogramme',
    ear: 'Oreille',
    condition: 'Condition',
    performedOn: 'Date du test',
    airTransducer: 'Écouteurs',
    boneTransducer: 'Vibrateur',
    unknown: 'inconnu',
    transducers: {
      'supra-aural': 'Casque supra-aural',
      'circum-aural': 'Casque circum-aural',
      insert: 'Inserts',
      'bone-mastoid': 'Mastoïde',
      'bone-forehead': 'Front',
    },
    device: 'Dispositif et son état',
    deviceHint: 'Classe et programme, sans nom de marque',
    note: 'Remarque',
    reason: 'Pourquoi l’audiogramme en vigueur ne compte plus',
    reasonHint: (sentence) => `Sera remplacé : ${sentence}`,
    copyPoints: 'Partir des valeurs de l’audiogramme en vigueur',
    submit: 'Saisir l’audiogramme',
    missingDate: 'Donnez la date du test.',
    futureDate: 'Ce jour n’est pas encore venu.',
  },
  grid: {
    label: (sentence) => `Seuils, ${sentence}`,
    corner: 'dB HL',
    row: { air: 'CA', bone: 'CO', 'sound-field': 'CL', aided: 'Appareillé' },
    masked: 'avec masquage',
    unmasked: 'sans masquage',
    hint: 'Les flèches déplacent. Tapez un niveau, Entrée le prend. n : pas de réponse. x : non testable. Suppr : non testé.',
    noResponse: 'Pas de réponse (n)',
    couldNotTest: 'Non testable (x)',
    clear: 'Non testé (Suppr)',
    minus: '±',
    cell: (row, frequency) => `${row}, ${frequency} Hz`,
    changedBy: (name) => `modifié par ${name}`,
    nowReads: (value, name) => `Entre-temps ${name} a saisi ${value} ici. Entrée prend votre valeur, Échap la sienne.`,
    offGrid: 'entre les pas de 5 dB',
    beyond: (limit) => `au-dessus de ${limit} dB HL, limite usuelle d’un audiomètre ici`,
    typing: (names) => `${names} saisit aussi des valeurs ici`,
    somebody: 'quelqu’un',
  },
  pointFault,
  repeat: {
    label: 'Répétition à 1 kHz, CA (dB HL)',
    hint: 'Si le seuil a été cherché une seconde fois dans cette oreille.',
    fault: (fault) => (fault.code === 'not-heard' ? 'Écrivez le niveau entendu, ou laissez vide.' : pointFault(fault)),
  },
  notes: {
    heading: 'Sur cet audiogramme',
    none: 'Ni repère ni bande ici.',
    add: 'Ajouter un repère ou une bande',
    edit: 'Modifier',
    remove: 'Supprimer',
    removeTitle: 'Supprimer ce repère ?',
    removeText: (text) => `« ${text} » disparaît de l’audiogramme pour tous.`,
    place: {
      pin: (ear, frequency, level) => `Oreille ${earNames[ear]}, ${frequency} Hz, ${whole(level)} dB HL`,
      band: (ear, from, to) => `Oreille ${earNames[ear]}, ${from} à ${to} Hz`,
    },
    dialogTitle: 'Repère ou bande',
    kind: 'Nature',
    kinds: { pin: 'Repère à une fréquence', band: 'Bande de fréquences' },
    frequency: 'Fréquence (Hz)',
    level: 'Niveau (dB HL)',
    from: 'De (Hz)',
    to: 'À (Hz)',
    text: 'Texte',
    textMissing: 'Écrivez ce qu’il y a à voir.',
    textTooLong: (used, most) =>
      `${whole(used)} caractères ; il y a place pour ${most}. Rien de votre texte n’est perdu.`,
    bandOrder: 'Une bande finit plus haut qu’elle ne commence.',
    levelRange: 'Un niveau va de −20 à 130 dB HL.',
    submit: 'Placer',
  },
  screen: 'Écran principal',
  screenHint: 'Mettre cet audiogramme à l’écran principal (touche s)',
  onScreen: 'Sur l’écran principal.',
  export: 'Enregistrer les audiogrammes en vigueur en CSV',
}
