import type { TriggerParts, TriggerWords } from '@/lib/board/trigger-sentence.ts'
import type { decisions as English } from '../en/decisions.ts'
import type { Shape } from '../part.ts'
import { decimals, whole } from './numbers.ts'
import { band, frequency } from './places.ts'

const changed: Record<TriggerParts['change'], (parts: TriggerParts) => string> = {
  'falls-by': ({ measure, place, amount, reference }) =>
    `${measure} (${place}) baisse d’au moins ${amount} par rapport ${reference}`,
  'rises-by': ({ measure, place, amount, reference }) =>
    `${measure} (${place}) augmente d’au moins ${amount} par rapport ${reference}`,
  'is-below': ({ measure, place, amount }) => `${measure} (${place}) est sous ${amount}`,
  'is-above': ({ measure, place, amount }) => `${measure} (${place}) dépasse ${amount}`,
}

export const triggerWords: TriggerWords = {
  measure: {
    'air-conduction': 'le seuil aérien',
    'bone-conduction': 'le seuil osseux',
    'air-bone-gap': 'le rinne',
    'aided-threshold': 'le seuil appareillé',
    'effective-gain': 'le gain effectif',
    'functional-gain': 'le gain fonctionnel',
  },
  reference: {
    'before-surgery': 'à avant l’opération',
    'first-fitting': 'au premier réglage',
    'best-so-far': 'au meilleur résultat obtenu',
    forecast: 'à la prévision',
    'other-ear': 'à l’autre oreille',
  },
  frequency,
  band,
  amount: (amountDb, unit) => `${decimals(amountDb)} ${unit}`,
  change: (parts) => changed[parts.change](parts),
  condition: { unaided: 'sans appareil', 'sound-field': 'en champ libre', aided: 'avec appareil' },
  words: ({ condition, levelDbSpl, reference }) =>
    `le score de mots ${condition}, dans le silence à ${levelDbSpl} dB SPL, baisse par rapport ${reference} plus que le hasard ne l’explique`,
}

export const decisions: Shape<typeof English> = {
  title: 'Décisions',
  notes: 'Notes',
  contingencies: 'Éventualités',
  trigger: triggerWords,
  kind: { finding: 'Constat', decision: 'Décision', reason: 'Raison' },
  step: {
    label: 'Étape de l’opération',
    none: 'Aucune étape',
    numbered: (number, title) => `${number}. ${title}`,
    filed: (step) => `Étape ${step}`,
  },
  note: {
    add: (kind) => `Ajouter : ${kind.toLowerCase()}`,
    nothingTitle: 'Pas encore de note',
    nothing: 'Constats, décisions et leurs raisons se trouvent ici, écrits ensemble.',
    empty: 'Rien d’écrit encore',
    name: (kind, firstLine) => `${kind} : ${firstLine}`,
    cites: 'Renvoie à',
    citeGone: 'Un élément qui n’est plus sur ce tableau',
    cite: {
      question: (text) => `Question : ${text}`,
      annotation: (text) => `Repère : ${text}`,
      test: (text) => `Audiogramme : ${text}`,
    },
    sort: { question: 'Question', annotation: 'Repère', test: 'Audiogramme' },
    test: (ear, condition, day) => `${ear}, ${condition}, ${day}`,
    goTo: (label) => `Aller à ${label}`,
    dropCite: (label) => `Ne plus renvoyer à ${label}`,
    struckBy: (name) => `Barré par ${name}`,
    because: 'Motif',
    typing: (names) => `${names.join(', ')} ${names.length === 1 ? 'écrit' : 'écrivent'} ici`,
    identifying: 'Ceci peut identifier quelqu’un. Utilisez le pseudonyme.',
  },
  editor: {
    label: (kind) => `${kind}, texte écrit ensemble`,
    toolbar: 'Mise en forme',
    bold: 'Gras',
    italic: 'Italique',
    bulletList: 'Liste à puces',
    orderedList: 'Liste numérotée',
    kind: 'Genre de note',
    done: 'Terminé',
    hint: 'Tous le voient pendant que vous écrivez. Échap pour finir.',
    loading: 'Ouverture du texte ...',
    signs: { bold: 'G', italic: 'I', bulletList: '•', orderedList: '1.' },
    full: (most) =>
      `Une note contient ${whole(most)} caractères. Ce qui dépasse n’a pas été pris : raccourcissez la note ou commencez-en une autre.`,
    pasteTooLong: (length, room) =>
      `${whole(length)} caractères ont été collés et il y a place pour ${whole(room)}. Rien n’a été pris et la note est inchangée ; le texte est encore dans votre presse-papiers.`,
    tooDeep: 'Les listes ne vont pas plus profond.',
  },
  contingency: {
    add: 'Nouvelle éventualité',
    nothingTitle: 'Pas encore d’éventualité',
    nothing: 'Écrivez maintenant ce qui sera fait si quelque chose survient : le tableau le surveille ensuite.',
    ifWord: 'Si',
    thenWord: 'alors',
    name: (state, trigger) => `${state} : si ${trigger}`,
    moved: (name) => `Déplacée par ${name}`,
    kind: 'Ce qui la déclenche',
    measured: 'Des seuils mesurés',
    words: 'Des mots compris',
    found: 'Un constat',
    measure: 'Mesure',
    from: 'De',
    to: 'À',
    change: 'Évolution',
    changes: {
      'falls-by': 'baisse d’au moins',
      'rises-by': 'augmente d’au moins',
      'is-below': 'est sous',
      'is-above': 'dépasse',
    },
    amount: (unit) => `Valeur (${unit})`,
    reference: 'Par rapport',
    condition: 'Condition',
    speechLevel: 'Niveau de parole dans le silence (dB SPL)',
    wordsHint:
      'Monosyllabes dans le silence. Remplie quand un score est sous la différence critique à 95 % de sa référence : avec 20 mots, une baisse depuis 90 % se voit dès 55 %, avec 50 mots dès 72 %.',
    finding: 'Ce qui est constaté',
    findingHint: 'Tel que cela suivrait le mot « si »',
    plan: 'Ce qui est fait alors',
    preview: 'On lit',
    planMissing: '…',
    save: 'Consigner',
    saveChange: 'Enregistrer',
    amountWrong: (least, most) => `Un nombre de ${decimals(least)} à ${decimals(most)}.`,
    bandOrder: 'Une bande finit où elle commence, ou plus haut.',
    missing: 'Écrivez d’abord quelque chose.',
    why: 'Pourquoi',
    whyHint: 'Ce qui a été vu, ou par quelle mesure',
    moveTo: (state) => `Marquer comme ${state.toLowerCase()}`,
  },
  act: {
    edit: 'Écrire',
    cite: 'Renvoyer',
    strike: 'Barrer',
    screen: 'Écran principal',
    reword: 'Modifier',
    up: 'Monter d’un rang',
    down: 'Descendre d’un rang',
  },
  keys: {
    title: 'Sur une note ou une éventualité (quand elle est sélectionnée)',
    move: 'D’une ligne à l’autre',
    order: 'Monter ou descendre d’un rang',
  },
  form: {
    cite: 'Renvoyer à une question, un repère ou un audiogramme',
    citeHint: 'Tapez-en un mot.',
    citeNone: 'Rien sur le tableau ne contient ces mots.',
    strike: 'Pourquoi elle ne vaut plus',
    strikeHint: 'Elle reste lisible, avec ce motif à côté.',
    saveStrike: 'Barrer la note',
  },
  done: {
    struck: 'Barrée.',
    cited: 'Renvoi ajouté.',
    written: 'Consigné.',
    moved: (state) => `Marquée comme ${state.toLowerCase()}.`,
    onScreen: 'Sur l’écran principal.',
  },
}
