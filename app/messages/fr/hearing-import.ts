import type { CellFault, CsvWarning, FileFault } from '@/lib/interchange/csv-faults.ts'
import type { PointFault } from '@/lib/interchange/point-text.ts'
import type { hearingImport as English } from '../en/hearing-import.ts'
import type { Shape } from '../part.ts'
import { pointFaults, type Sentences } from './hearing.ts'
import { counted, whole } from './numbers.ts'

const cellFaults: Omit<Sentences<CellFault>, PointFault['code']> = {
  'unknown-ear': ({ text }) => `« ${text} » n’est pas une oreille. Écrivez right ou left.`,
  'unknown-route': ({ text }) => `« ${text} » n’est pas une voie. Écrivez air, bone, sound-field ou aided.`,
  'unknown-masking': ({ text }) => `« ${text} » ne dit pas si l’autre oreille était masquée. Écrivez yes ou no.`,
  'unknown-response': ({ text }) => `« ${text} » n’est pas une réponse. Écrivez heard, no-response ou could-not-test.`,
  'unknown-frequency': ({ text }) =>
    `« ${text} » n’est pas une fréquence audiométrique en Hz. Sont connues 125 à 8000 Hz avec demi-octaves, et 9000 à 16000 Hz.`,
  'unknown-condition': ({ text }) => `« ${text} » n’est pas une condition. Écrivez unaided, sound-field ou aided.`,
  'not-a-date': ({ text }) => `« ${text} » n’est pas une date. Écrivez année-mois-jour, par exemple 2026-05-31.`,
  'condition-mismatch': ({ route, condition }) =>
    `Un test en condition « ${condition} » n’a pas de points par la voie « ${route} ».`,
  'no-level': () => 'Le niveau manque. Omettez toute la ligne si la fréquence n’a pas été testée.',
  'level-with-could-not-test': ({ text }) =>
    `« ${text} » figure à côté de « non testable ». Un seul des deux peut être vrai.`,
  'duplicate-point': ({ otherRow }) => `La ligne ${otherRow} donne le même point. Un seul des deux peut rester.`,
  'extra-cells': ({ cells, columns }) =>
    `La ligne a ${cells} cellules, l’en-tête ${columns}. Un séparateur se trouve peut-être dans une valeur.`,
  'open-quote': () => 'Un guillemet s’ouvre ici et n’est pas fermé.',
}

const fileFaults: Sentences<FileFault> = {
  empty: () => 'Il n’y a pas de ligne sous l’en-tête. La première ligne nomme les colonnes, les autres sont lues.',
  'too-long': ({ characters, most }) =>
    `Le texte a ${whole(characters)} caractères ; un import en prend ${whole(most)} au plus.`,
  'too-many-rows': ({ rows, most }) =>
    `Il y a ${whole(rows)} lignes ; un import en prend ${whole(most)} au plus. N’importez que les tests d’un cas, ou par parties.`,
  'missing-column': ({ columns, found }) =>
    `Manque : ${columns.join(', ')}. Trouvé : ${found.map((title) => `« ${title.slice(0, 40)} »`).join(', ')}.`,
  'column-twice': ({ column }) => `La colonne « ${column} » figure deux fois.`,
  'wrong-unit-column': ({ column, expected }) =>
    `« ${column} » est dans une autre unité. Ce tableau lit ${expected === 'level_db_hl' ? 'des niveaux en dB HL' : 'des fréquences en Hz'} ; convertissez la colonne et nommez-la ${expected}.`,
  'unknown-frequency-column': ({ column }) => `« ${column} » n’est pas une fréquence audiométrique.`,
}

const warnings: Sentences<CsvWarning> = {
  'unknown-column': ({ column }) => `La colonne « ${column} » n’est pas lue.`,
  'unit-assumed': ({ column }) => `« ${column} » ne nomme pas d’unité : pris en dB HL.`,
  'masking-assumed': () => 'Il n’y a pas de colonne « masked » : tous les points sont pris sans masquage.',
  'off-grid': ({ points }) =>
    `${counted(points, 'niveau est', 'niveaux sont')} entre les pas de 5 dB. Acceptés et marqués.`,
}

const ofCode = <T extends { code: string }>(sentences: unknown, fact: T): string =>
  (sentences as Record<string, (fact: T) => string>)[fact.code]?.(fact) ?? fact.code

export const hearingImport: Shape<typeof English> = {
  title: 'Importer des audiogrammes',
  text: 'Collez un tableau, ou déposez un fichier CSV ici',
  choose: 'Choisir un fichier',
  hint: 'Une ligne par point : ear, route, masked, frequency_hz, level_db_hl, response [, condition, date]. Ou une ligne par oreille et voie, avec une colonne par fréquence.',
  read: (file, encoding) => `${file}, lu en ${encoding}`,
  date: 'Date des lignes qui n’en ont pas',
  reason: 'Pourquoi les audiogrammes antérieurs ne comptent plus',
  reasonSuggestion: (day) => `Remplacé par l’audiogramme du ${day}`,
  fileFault: (fault) => ofCode(fileFaults, fault),
  cellFault: (fault) => ofCode({ ...pointFaults, ...cellFaults }, fault),
  warning: (warning) => ofCode(warnings, warning),
  swapped:
    'La droite et la gauche sont peut-être inversées : ces oreilles ressemblent bien plus à l’autre oreille des audiogrammes en vigueur qu’à la leur.',
  swappedCheck: 'J’ai comparé les oreilles avec la source.',
  found: (points, rows) => `${counted(points, 'point', 'points')} en ${counted(rows, 'ligne', 'lignes')}`,
  faults: (count) => counted(count, 'défaut', 'défauts'),
  row: 'Ligne',
  column: 'Colonne',
  problem: 'Défaut',
  wholeRow: 'toute la ligne',
  moreFaults: (count) => `et ${counted(count, 'autre défaut', 'autres défauts')}`,
  preview: 'Ce qui sera saisi',
  willSupersede: (sentence) => `remplace : ${sentence}`,
  goodRows: (count) => `Omettre les lignes fautives et n’importer que ${counted(count, 'point', 'points')}`,
  submit: (count) => `Importer ${counted(count, 'audiogramme', 'audiogrammes')}`,
  done: (count) => `${counted(count, 'audiogramme importé', 'audiogrammes importés')}.`,
  nothingYet: 'Rien à lire encore.',
}
