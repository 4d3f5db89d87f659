import type { FindingSentences } from '../en/findings.ts'
import { decimals, hertz, kilohertz } from './numbers.ts'
import { agreements, toneAverages } from './speech-terms.ts'

type Ear = 'right' | 'left'

const earphone = {
  'supra-aural': 'un casque supra-aural',
  'circum-aural': 'un casque circum-aural',
  insert: 'des inserts',
}
const conduction = {
  air: 'en conduction aérienne',
  bone: 'en conduction osseuse',
  'sound-field': 'en champ libre',
  aided: 'avec appareil',
}

const names = { right: 'droite', left: 'gauche' }
const own = (ear: Ear | undefined): string => (ear === undefined ? 'cette oreille' : `l’oreille ${names[ear]}`)
const ofOwn = (ear: Ear | undefined): string => (ear === undefined ? 'de cette oreille' : `de l’oreille ${names[ear]}`)
const other = (ear: Ear | undefined): string => `l’oreille ${ear === 'right' ? 'gauche' : 'droite'}`
const at = (frequency: number | undefined): string => (frequency === undefined ? '' : ` à ${hertz(frequency)}`)
const db = (value: number): string => decimals(value, 1)
const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1)

export const findingSentences: FindingSentences = {
  'mask-air-bsa-1': ({ level, otherEarAir, difference, limit, transducer }, { ear, frequency }) => ({
    what: `Le seuil aérien ${ofOwn(ear)}${at(frequency)} est peut-être entendu par ${other(ear)}.`,
    why: `Sans masquage, les oreilles diffèrent de ${db(difference)} dB (${db(level)} et ${db(otherEarAir)} dB HL) ; à partir de ${db(limit)} dB, ${earphone[transducer]} peut s’entendre de l’autre côté.`,
    whatToDo: `Refaire ${own(ear)} en conduction aérienne en masquant ${other(ear)}.`,
  }),
  'mask-bone-bsa-2': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `On ignore quelle oreille interne a donné le seuil osseux${at(frequency)}.`,
    why: `La conduction osseuse sans masquage est de ${db(boneLevel)} dB HL, meilleure de ${db(difference)} dB que la conduction aérienne ${ofOwn(ear)} (${db(airLevel)} dB HL) ; la règle demande un masquage à partir de ${db(limit)} dB.`,
    whatToDo: `Tester ${own(ear)} en conduction osseuse en masquant ${other(ear)}.`,
  }),
  'mask-air-bsa-3': ({ level, otherEarBone, difference, limit, transducer }, { ear, frequency }) => ({
    what: `Le seuil aérien ${ofOwn(ear)}${at(frequency)} est peut-être entendu par l’oreille interne opposée.`,
    why: `Sans masquage, il est de ${db(level)} dB HL, ${db(difference)} dB au-dessus de la conduction osseuse qui appartient peut-être à ${other(ear)} (${db(otherEarBone)} dB HL) ; à partir de ${db(limit)} dB, ${earphone[transducer]} peut s’entendre de l’autre côté.`,
    whatToDo: `Refaire ${own(ear)} en conduction aérienne en masquant ${other(ear)}.`,
  }),
  'mask-air-asha': ({ level, otherEarBone, difference, limit, transducer }, { ear, frequency }) => ({
    what: `Le seuil aérien ${ofOwn(ear)}${at(frequency)} est peut-être entendu par l’oreille interne opposée.`,
    why: `Il est de ${db(level)} dB HL, ${db(difference)} dB au-dessus de la conduction osseuse de ${other(ear)} (${db(otherEarBone)} dB HL) ; le transfert interaural minimal avec ${earphone[transducer]} est ici de ${db(limit)} dB.`,
    whatToDo: `Refaire ${own(ear)} en conduction aérienne en masquant ${other(ear)}.`,
  }),
  'mask-bone-asha': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `Le seuil osseux ${ofOwn(ear)}${at(frequency)} demande un masquage.`,
    why: `Le rinne sans masquage est de ${db(difference)} dB (CA ${db(airLevel)}, CO ${db(boneLevel)} dB HL), plus de ${db(limit)} dB.`,
    whatToDo: `Tester ${own(ear)} en conduction osseuse en masquant ${other(ear)}.`,
  }),
  'masking-dilemma': ({ least, most, transducer }, { ear, route, frequency }) => ({
    what: `Le seuil ${ofOwn(ear)} ${conduction[route]}${at(frequency)} ne peut pas être masqué avec ${earphone[transducer]}.`,
    why: `Il faudrait au moins ${db(least)} dB HL, mais dès ${db(most)} dB HL le bruit atteint l’oreille testée.`,
    whatToDo: 'Masquer avec des inserts, ou tenir le seuil pour incertain et s’appuyer sur d’autres tests.',
  }),
  'overmasking-risk': ({ least, most, transducer }, { ear, route, frequency }) => ({
    what: `Le seuil masqué ${ofOwn(ear)} ${conduction[route]}${at(frequency)} est peut-être trop mauvais.`,
    why: `Avec ${earphone[transducer]} il faut au moins ${db(least)} dB HL de bruit, mais dès ${db(most)} dB HL il atteint l’oreille testée : aucun niveau n’est sûr.`,
    whatToDo: 'Refaire en masquant avec des inserts, ou tenir le seuil pour incertain.',
  }),
  'possible-shadow-curve': ({ frequencies, least, most, transducer }, { ear }) => ({
    what: `La courbe aérienne ${ofOwn(ear)} est peut-être la courbe fantôme de ${other(ear)}.`,
    why: `À ${kilohertz(frequencies)} elle passe de ${db(least)} à ${db(most)} dB au-dessus de l’oreille interne opposée, comme des sons qui traversent la tête avec ${earphone[transducer]}.`,
    whatToDo: `Refaire ${own(ear)} en masquant ${other(ear)} ; d’ici là, elle est peut-être bien plus mauvaise.`,
  }),
  'cross-hearing-not-excluded': ({ level, from }, { ear, frequency }) => ({
    what: `L’audition croisée n’est pas exclue pour ${own(ear)}${at(frequency)}.`,
    why: `Le seuil est de ${db(level)} dB HL (prudence conseillée à partir de ${db(from)} dB HL) et ${other(ear)} n’y a pas été testée.`,
    whatToDo: `Tester ${other(ear)}${at(frequency)}.`,
  }),
  'possibly-vibrotactile': ({ level, feltFrom, transducer }, { ear, frequency }) => ({
    what: `La réponse osseuse ${ofOwn(ear)}${at(frequency)} a peut-être été sentie et non entendue.`,
    why: `En moyenne, le vibrateur ${transducer === 'bone-forehead' ? 'frontal' : 'mastoïdien'} est senti à partir de ${db(feltFrom)} dB HL ; la réponse est à ${db(level)} dB HL.`,
    whatToDo: 'Demander au patient s’il a entendu ; ne pas se fier au rinne à cette fréquence.',
  }),
  'bone-worse-than-air': ({ boneLevel, airLevel, difference, limit }, { ear, frequency }) => ({
    what: `La conduction osseuse ${ofOwn(ear)} est moins bonne que l’aérienne${at(frequency)}.`,
    why: `CO ${db(boneLevel)} dB HL, CA ${db(airLevel)} dB HL : ${db(difference)} dB d’écart ; à partir de ${db(limit)} dB, l’erreur test-retest ne l’explique plus.`,
    whatToDo: 'Vérifier la place du vibrateur, l’étalonnage et la saisie, puis refaire.',
  }),
  'beyond-audiometer': ({ level, limit }, { ear, route, frequency }) => ({
    what: `Le niveau ${ofOwn(ear)} ${conduction[route]}${at(frequency)} dépasse ce que donnent les audiomètres.`,
    why: `${db(level)} dB HL ont été saisis ; un audiomètre de type 1 y atteint ${db(limit)} dB HL.`,
    whatToDo: 'Vérifier la saisie : autre fréquence, autre voie, ou pas de réponse à la limite.',
  }),
  'off-step': ({ level, step }, { ear, route, frequency }) => ({
    what: `Le niveau ${ofOwn(ear)} ${conduction[route]}${at(frequency)} n’est pas sur le pas de l’audiomètre.`,
    why: `${db(level)} dB HL n’est pas un multiple de ${db(step)} dB.`,
    whatToDo: 'Vérifier la saisie, ou déclarer le pas plus fin qui a été utilisé.',
  }),
  'speech-better-than-tones': ({ speech, tones, difference, agreement, average }, { ear }) => ({
    what: `${capital(own(ear))} entend la parole mieux que ses sons purs ne le permettent.`,
    why: `Seuil d’intelligibilité ${db(speech)} dB HL, ${toneAverages[average]} ${db(tones)} dB HL : ${db(-difference)} dB de mieux (concordance ${agreements[agreement]}) ; on admet jusqu’à 10 dB.`,
    whatToDo: 'Soupçonner des seuils tonals trop mauvais ; réexpliquer et refaire, ou recourir aux tests objectifs.',
  }),
  'speech-poorer-than-tones': ({ speech, tones, difference, agreement, average }, { ear }) => ({
    what: `${capital(own(ear))} entend la parole moins bien que ses sons purs ne le laissent attendre.`,
    why: `Seuil d’intelligibilité ${db(speech)} dB HL, ${toneAverages[average]} ${db(tones)} dB HL : ${db(difference)} dB de moins (concordance ${agreements[agreement]}) ; on admet jusqu’à 10 dB.`,
    whatToDo:
      'Chercher une pente raide, une mauvaise discrimination ou une liste dans une autre langue ; refaire si rien ne l’explique.',
  }),
  'lone-4-khz-gap': ({ gap }, { ear }) => ({
    what: `Le rinne ${ofOwn(ear)} à 4 kHz seul n’est sans doute pas de transmission.`,
    why: `${db(gap)} dB à 4 kHz avec un rinne fermé de 0,5 à 2 kHz correspond à l’erreur connue de la référence osseuse à cette fréquence.`,
    whatToDo: 'Ne pas dire la surdité mixte pour ce seul rinne.',
  }),
  'retest-1-khz': ({ first, second, difference }, { ear }) => ({
    what: `Les deux seuils ${ofOwn(ear)} à 1 kHz ne concordent pas.`,
    why: `${db(first)} et ${db(second)} dB HL diffèrent de ${db(difference)} dB ; on admet 5 dB.`,
    whatToDo:
      difference >= 10
        ? 'Réexpliquer, puis refaire d’autres fréquences jusqu’à ce que les répétitions concordent.'
        : 'Refaire 1 kHz, et d’autres fréquences si l’écart demeure.',
  }),
  'ears-swapped': ({ sameEar, otherEar, frequencies, earlierDate }) => ({
    what: 'La droite et la gauche sont peut-être inversées.',
    why: `Par rapport à l’audiogramme du ${earlierDate}, chaque oreille est à ${db(sameEar)} dB d’elle-même et à ${db(otherEar)} dB de l’autre (moyenne à ${kilohertz(frequencies)}).`,
    whatToDo: 'Vérifier quel écouteur était sur quelle oreille avant de décider d’un côté.',
  }),
}
