import type { board as English } from '../en/board.ts'
import type { Shape } from '../part.ts'
import { counted } from './numbers.ts'

export const board: Shape<typeof English> = {
  pageTitle: 'Cas',
  opening: 'Ouverture du cas ...',
  cannotOpen: 'Ce cas ne peut pas être ouvert',
  toOverview: 'Vers la liste des cas',
  revoked: 'Votre accès à ce cas a été retiré. Demandez un nouveau lien au modérateur.',
  notAllowed: 'Vous n’avez pas accès à ce cas. Demandez un lien au modérateur, puis ouvrez-le dans ce navigateur.',
  unnamed: { name: 'Demandé sans nom', affiliation: '' },
  unnamedToRoom: (name) => `${name} (sans nom pour la salle)`,
  desk: 'Pupitre',
  openDesk: 'Vers le pupitre du modérateur',
  unknownPerson: 'Personne qui n’est plus sur la liste',

  skipLinks: 'Accès rapide',
  panes: 'Volets de ce cas',
  pane: {
    hearing: 'Audition',
    plan: 'Plan et prévision',
    steps: 'Étapes',
    decisions: 'Décisions',
    floor: 'Questions',
  },
  paneShort: { hearing: 'Audition', plan: 'Plan', steps: 'Étapes', decisions: 'Décisions', floor: 'Questions' },
  contingenciesMet: (count) => counted(count, 'éventualité survenue', 'éventualités survenues'),
  questionsRaised: (count) => counted(count, 'question posée', 'questions posées'),
  goToPane: (pane) => `Aller au volet ${pane}`,
  boardKeys: 'Volets',
  headKeys: 'Cas',
  showKeys: 'Clavier',
  showDrafts: 'Vos brouillons',
  showPeople: 'Personnes présentes',
  withdraw: 'Retirer un contenu',
  exchange: 'Export et import',
  rewind: 'Revoir : le tableau tel qu’il était',
  keysHint: 'Les touches agissent quand vous n’écrivez pas. L’élément sélectionné passe à l’écran principal avec s.',

  storedState: {
    stored: 'Enregistré',
    storing: 'Enregistrement',
    connecting: 'Connexion',
    offline: 'Hors ligne',
    'offline-kept-here': 'Hors ligne, gardé ici',
    'store-away': 'Serveur sans stockage',
    'store-away-kept-here': 'Non enregistré, gardé ici',
    'refused-entry': 'Pas d’accès',
  },
  away: {
    offline: {
      kept: 'Vous êtes hors ligne. Vos modifications sont gardées sur cet appareil et envoyées au retour de la liaison.',
      notKept:
        'Vous êtes hors ligne, et ce navigateur ne garde rien pour la page. Laissez-la ouverte : vos modifications partent au retour de la liaison.',
    },
    'store-away': {
      kept: 'Le serveur ne peut rien enregistrer pour le moment. Vos modifications sont gardées sur cet appareil et renvoyées d’elles-mêmes ; personne d’autre ne les voit avant leur enregistrement. Prévenez qui s’occupe du serveur.',
      notKept:
        'Le serveur ne peut rien enregistrer pour le moment, et ce navigateur ne garde rien pour la page. Laissez-la ouverte : vos modifications sont renvoyées d’elles-mêmes ; personne d’autre ne les voit avant leur enregistrement. Prévenez qui s’occupe du serveur.',
    },
  },
  noCopy:
    'Ce navigateur ne garde rien pour la page (fenêtre privée ou disque plein). Elle fonctionne, mais pas hors ligne.',
  refusedTitle: 'Non repris.',

  openPeople: (listed, observers) =>
    `Présents : ${counted(listed, 'personne', 'personnes')}, ${counted(observers, 'observateur', 'observateurs')}`,
  whoIsHere: 'Personnes présentes',
  observers: (count) => `${counted(count, 'observateur regarde', 'observateurs regardent')}.`,

  openDrafts: (count) => `${counted(count, 'de vos brouillons non repris', 'de vos brouillons non repris')}`,
  drafts: 'Vos brouillons',
  noDrafts: 'Aucun brouillon',
  noDraftsHint:
    'Ce que le tableau n’a pas pu reprendre est gardé ici, sur cet appareil, jusqu’à ce que vous vous en occupiez.',
  draftOfRemoval: 'Vous aviez supprimé cet élément ; il est de nouveau là.',
  retry: 'Réessayer',
  copy: 'Copier le texte',
  discard: 'Jeter',
  copied: 'Copié',
  notCopied: 'Ce navigateur n’a pas permis la copie. Sélectionnez plutôt le texte.',
  cannotRetry: 'Ce texte n’a plus sa place : l’élément a disparu, ou d’autres y écrivent. Copiez le texte.',

  openMenu: 'Plus sur ce cas',
  menu: 'Ce cas',
  page: {
    'follow-up': 'Suivi',
    screen: 'Écran principal',
    theatre: 'Vue du bloc',
    handout: 'Fiche imprimée',
    code: 'Vérifier un code',
  },
  pageHint: {
    'follow-up': 'Après l’opération : visites, résultat comparé à sa prévision, éventualités.',
    screen: 'Pour la salle et la régie vidéo : seulement ce que montre le modérateur.',
    theatre: 'Pour le chirurgien : étape, question appelée et éventualités, lisibles à trois mètres.',
    handout: 'À imprimer, avec le code d’enregistrement de chaque test.',
    code: 'Tapez un code lu sur papier : la page dit si l’enregistrement est encore en vigueur.',
  },
  caution:
    'Aide à la décision pour professionnels habilités, pas un dispositif médical. Les estimations viennent de données de groupe et d’un modèle ; la notice du dispositif, les règles locales et l’équipe soignante décident.',

  onScreenAudiogram: (ear) => `À l’écran : oreille ${ear}`,
  onScreen: {
    audiogram: 'À l’écran : les deux oreilles',
    question: 'À l’écran : question',
    note: 'À l’écran : décision',
    contingency: 'À l’écran : éventualité',
    forecast: 'À l’écran : prévision',
    options: 'À l’écran : options',
    scenario: 'À l’écran : scénario',
    'sealed-forecast': 'À l’écran : prévision scellée',
    steps: 'À l’écran : étapes',
    'sync-mark': 'À l’écran : repère de synchronisation',
    vote: 'À l’écran : vote',
    picture: 'À l’écran : photographie',
  },
  goToShown: 'Aller à ce qui est sur l’écran principal',
  takeDown: 'Vider l’écran principal',

  videoDelay: 'Mesurer mon retard vidéo',
  showSyncMark: 'Mettre le repère de synchronisation à l’écran',

  caseDetails: 'Détails du cas',
  describeCase: 'Décrire le cas',
  details: {
    pseudonym: 'Pseudonyme',
    pseudonymHint: 'Jamais un nom, une date de naissance ni un numéro de dossier.',
    ear: 'Oreille à opérer',
    age: 'Âge, années',
    sex: 'Sexe',
    sexes: { female: 'Féminin', male: 'Masculin', 'not-stated': 'Non précisé' },
    summary: 'Résumé',
    phase: 'Phase',
    closing: 'Un cas clos peut être lu, montré et exporté. Rien de son dossier ne change tant qu’il n’est pas rouvert.',
    isClosed: 'Ce cas est clos. Choisissez une autre phase et écrivez pourquoi, pour le rouvrir.',
    reopening: 'Pourquoi il est rouvert',
    reopeningMissing: 'Écrivez pourquoi le cas est rouvert.',
    consent: 'Consentement à la diffusion',
    consentHint: 'Consigné avant l’entrée au bloc, avec votre nom et l’heure.',
    consents: { none: 'Non consigné', recorded: 'Consigné', withdrawn: 'Retiré' },
    how: 'Comment il a été donné ou retiré',
    save: 'Enregistrer',
  },
}
