import type { FhirFileFault, FhirItemFault } from '@/lib/interchange/fhir/faults.ts'
import type { exchange as English } from '../en/exchange.ts'
import type { Shape } from '../part.ts'
import { counted, decimals, whole } from './numbers.ts'
import { words } from './words.ts'

const mb = (bytes: number): string => `${whole(Math.ceil(bytes / 1024 / 1024))} Mo`
/** What lib/interchange/archive/manifest.ts names. */
const leftOut: Readonly<Record<string, string>> = {
  ballots: 'bulletins de vote',
  withdrawals: 'contenus retirés',
  'askers of questions without a name': 'auteurs des questions sans nom',
}
const earOf = (ear: string): string => (words.earShort as Readonly<Record<string, string>>)[ear] ?? ear

const fileFaults: { readonly [C in FhirFileFault['code']]: (fault: Extract<FhirFileFault, { code: C }>) => string } = {
  'too-long': ({ most }) =>
    `Le fichier dépasse ${decimals(most / 1_000_000)} millions de caractères. Envoyez un patient à la fois.`,
  'not-json': () => 'Ce n’est pas du JSON, ou il est tronqué. Redemandez le fichier, en FHIR R4 JSON.',
  'not-a-bundle': ({ found }) =>
    `Ceci est ${found}, pas un Bundle FHIR. Demandez un Bundle avec Patient et Observations.`,
  'other-version': ({ version, where }) =>
    `Ceci est FHIR ${version} (${where}) ; le tableau lit R4, 4.0.1. Demandez le fichier en R4.`,
  'too-many-entries': ({ entries, most }) =>
    `Le fichier a ${whole(entries)} entrées, plus que ${whole(most)}. Envoyez un patient à la fois.`,
  'no-patient': () =>
    'Le fichier ne nomme pas de patient : on ne peut savoir de qui sont ces tests. Redemandez-le avec son Patient.',
  'several-patients': ({ patients }) => `Le fichier contient ${patients} patients. Envoyez un patient à la fois.`,
  'wrong-patient': ({ found, expected }) =>
    `Ce sont les tests de ${found} ; ce cas est ${expected}. Ouvrez le cas de ${found}, ou vérifiez le fichier.`,
}

const itemFaults: { readonly [C in FhirItemFault['code']]: (fault: Extract<FhirItemFault, { code: C }>) => string } = {
  invalid: ({ path }) => `${path} : valeur non valable`,
  'no-unit': () => 'un niveau sans unité ; il faut des dB HL',
  'wrong-unit': ({ unit, expected }) => `un niveau en ${unit} ; il faut ${expected}`,
  'no-value': () => 'pas de niveau, et pas de raison de son absence',
  'wrong-ear': ({ said, site }) => `le code dit l’oreille ${earOf(said)}, la localisation l’oreille ${earOf(site)}`,
  'no-ear': () => 'l’oreille n’est pas précisée',
  'no-day': () => 'le jour du test manque ou est incomplet',
  'day-in-future': ({ day }) => `le ${day} n’est pas encore venu`,
  'before-operation': ({ day, operated }) => `un test d’une visite du ${day}, avant l’opération du ${operated}`,
  'other-patient': ({ reference }) => `il appartient à ${reference}, pas au patient du fichier`,
  'point-twice': ({ point }) => `${point} y figure deux fois`,
}

export const exchange: Shape<typeof English> = {
  title: 'Export et import',
  out: 'Sortir',
  outs: {
    archive: 'Tout le cas',
    fhir: 'Bundle FHIR R4',
    statistics: 'Tableaux pour statistiques',
  },
  outHints: {
    archive:
      'Un fichier avec tous les enregistrements, leurs auteurs et heures, le journal, FHIR et tableaux. Une autre installation peut le reprendre.',
    fhir: 'Tests, opération, visites et classe de dispositif en Bundle, pour d’autres systèmes cliniques.',
    statistics: 'CSV : une ligne par visite, oreille et fréquence, les tests vocaux, et un dictionnaire des colonnes.',
  },
  outCaution:
    'Qui a le fichier a le cas. Les bulletins de vote, ce qui a été retiré et qui a demandé sans nom n’y sont pas.',
  in: 'Reprendre des tests depuis FHIR',
  choose: 'Bundle de FHIR R4, JSON',
  chooseHint: 'Rien n’est saisi avant que vous l’ayez vu.',
  fileFault: (fault) => (fileFaults[fault.code] as (fault: FhirFileFault) => string)(fault),
  itemFault: (fault) => (itemFaults[fault.code] as (fault: FhirItemFault) => string)(fault),
  faults: (count) => `${counted(count, 'entrée est omise', 'entrées sont omises')} :`,
  faultAt: (entry, resource, problem) => `Entrée ${entry}, ${resource} : ${problem}`,
  moreFaults: (count) => `et ${count} de plus`,
  passedOver: (list) => `Non lu, car le tableau n’a pas de place pour cela : ${list}.`,
  operationDiffers: (there, here) =>
    `Le fichier donne pour l’opération ${there}, le tableau ${here}. Rien n’est changé ; comparez les deux.`,
  unknownPatient:
    'Le fichier vient d’un autre système et ne connaît pas le pseudonyme. J’ai vérifié que c’est bien le patient.',
  found: 'Ce qui serait saisi',
  standing: {
    new: 'nouveau',
    same: 'déjà là',
    differs: 'là avec d’autres valeurs ; non saisi, comparez les deux',
    'twice-in-file': 'deux fois dans le fichier ; saisi une fois',
    'does-not-count': 'saisi par erreur là-bas ; non saisi',
  },
  superseded: 'remplacé là-bas',
  tones: (count) => counted(count, 'seuil', 'seuils'),
  nothingNew: 'Il n’y a rien de nouveau dans ce fichier.',
  enter: (count) => `Saisir ${counted(count, 'test', 'tests')}`,
  entered: (count) => `${counted(count, 'test saisi', 'tests saisis')}.`,
  reason: 'remplacé par un import FHIR',
  tooLarge: (bytes, most) => `Le fichier a ${mb(bytes)} ; on en prend ${mb(most)} au plus. Rien n’a été envoyé.`,

  takeIn: 'Reprendre un cas',
  takeInWhat:
    'Une archive écrite par une autre installation. Elle est d’abord vérifiée et montrée ; un cas déjà là n’est jamais modifié.',
  archiveFile: 'Archive d’un cas (zip)',
  checking: 'Vérification …',
  shown: (label, at, people) => `${label}, écrit le ${at}, par ${counted(people, 'personne', 'personnes')}.`,
  standings: {
    new: 'Ce cas n’est pas encore là.',
    same: 'Ce cas est déjà là, enregistrement par enregistrement. Il n’y a rien à reprendre.',
    differs: 'Ce cas est là et a évolué autrement. Il reste tel quel ; l’archive peut exister à côté comme copie.',
    taken:
      'Un cas de cet identifiant est là, auquel vous n’êtes pas invité. L’archive peut exister à côté comme copie.',
    erased: (at) => `Ce cas a été effacé ici le ${at}. L’archive ne peut revenir que comme copie.`,
  },
  kind: 'Enregistrements',
  counts: {
    inArchive: 'dans l’archive',
    onlyInArchive: 'nouveaux',
    same: 'identiques',
    differs: 'différents',
    onlyHere: 'seulement ici',
  },
  leftOut: (things) => `Jamais dans une archive : ${things.map((thing) => leftOut[thing] ?? thing).join(', ')}.`,
  takeInNow: 'Le reprendre',
  takeInCopy: 'Reprendre comme copie',
  takenIn: (label) => `${label} est là.`,

  erase: 'Effacer',
  eraseCase: (label) => `Effacer ${label}`,
  eraseWhat:
    'Le cas disparaît définitivement : enregistrements, journal, questions, votes, contenus retirés et invitations. Les navigateurs qui en gardaient une copie la jettent à leur prochaine liaison. Ce qui a été exporté, imprimé ou photographié reste hors d’atteinte. Un reçu sans rien du patient est gardé.',
  eraseFirst: 'Sortez d’abord tout le cas, s’il doit être gardé quelque part.',
  eraseTyped: (label) => `Tapez ${label} pour l’effacer`,
  eraseMismatch: (label) => `Ce n’est pas ${label}. Rien n’a été effacé.`,
  eraseNow: 'Effacer définitivement',
  erasing: 'Effacement …',
  erased: 'Effacé. Voici le reçu :',
  receipts: 'Reçus des cas effacés',
  receipt: ({ id, caseId, by }, at) =>
    `Reçu ${id} : cas ${caseId}, effacé le ${at} par ${by?.name ?? 'quelqu’un qui n’est plus là'}.`,
  receiptCounts: ({ counts }) =>
    `${counts.updates} modifications, ${counts.states} états, ${counts.marks} repères, ${counts.ballots} bulletins, ${counts.withdrawals} retraits, ${counts.unnamedAuthors} demandeurs sans nom, ${counts.pictures} photographies, ${counts.invitations} invitations, ${counts.grants} accès.`,
}
