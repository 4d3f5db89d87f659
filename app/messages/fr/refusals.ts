import type { Refusal, RefusalCode, RefusalFacts } from '@/lib/board/refusals.ts'
import type { ApiErrorCode } from '@/lib/interchange/api.ts'
import type { refusals as English } from '../en/refusals.ts'
import { calendarDayOf, dayAndClockOf } from '../moments.ts'
import type { Shape } from '../part.ts'
import { counted, whole } from './numbers.ts'
import { fields } from './rewind.ts'
import { words } from './words.ts'

const kept = 'Ce que vous avez tapé est gardé comme brouillon.'

/** The word for a key of the records; the key itself where French has none. */
const wordOf = (known: object, key: string): string => (known as Record<string, string>)[key] ?? key
const kindOf = (kind: string): string => wordOf(words.kind, kind).toLowerCase()
const fieldOf = (field: string): string => wordOf(fields, field)
const earOf = (ear: string): string => wordOf(words.earShort, ear)
const stateOf = (state: string): string =>
  wordOf(
    {
      ...words.testState,
      ...words.questionState,
      ...words.contingencyState,
      ...words.visitState,
      ...words.visitItemState,
      ...words.stepState,
      ...words.phase,
    },
    state,
  ).toLowerCase()
const actions = { create: 'créer', change: 'modifier', remove: 'supprimer' }

const edits: { readonly [C in RefusalCode]: (facts: RefusalFacts[C]) => string } = {
  malformed: () => `Le serveur n’a pas pu lire cette modification. Rechargez la page et réessayez. ${kept}`,
  'too-large': ({ limitBytes }) =>
    `Cette modification dépasse ${whole(Math.floor(limitBytes / 1024))} Kio. Divisez-la. ${kept}`,
  'too-fast': ({ perSecond }) =>
    `Plus de ${perSecond} modifications par seconde sont venues de cette page. Attendez un instant, puis continuez. ${kept}`,
  'foreign-client': () => `Cette copie de la page porte la marque de quelqu’un d’autre. Elle est renouvelée. ${kept}`,
  'incomplete-update': () =>
    `Cette modification repose sur une autre que le serveur n’a pas. La page est mise à jour. ${kept}`,
  'unknown-place': ({ path }) => `Le tableau n’a pas de place pour cela (${path}). ${kept}`,
  'not-permitted': ({ role, action, kind, field }) =>
    `Votre rôle (${wordOf(words.role, role).toLowerCase()}) ne permet pas de ${actions[action]} ceci : ${field === undefined ? '' : `${fieldOf(field)}, `}${kindOf(kind)}. Demandez au modérateur. ${kept}`,
  'not-yours': ({ kind }) =>
    `Seule la personne qui l’a écrit peut modifier ceci : ${kindOf(kind)}. Demandez-lui, ou au modérateur. ${kept}`,
  'invalid-record': ({ path }) => `Une valeur n’est pas valable (${path}). Corrigez-la et réessayez. ${kept}`,
  'wrong-author': ({ kind }) =>
    `Cet élément doit porter le nom de qui l’écrit : ${kindOf(kind)}. Rechargez la page et réessayez. ${kept}`,
  'wrong-time': ({ at }) =>
    `L’heure ${dayAndClockOf(at)} est impossible. Vérifiez l’horloge de cet appareil, puis réessayez. ${kept}`,
  'wrong-picture-time': ({ pictureAt, at }) =>
    `Écrit le ${dayAndClockOf(at)}, ceci ne peut concerner l’image du ${dayAndClockOf(pictureAt)}. Mesurez de nouveau votre retard vidéo. ${kept}`,
  'fixed-field': ({ kind, field }) =>
    `Une fois écrit, ceci ne change plus : ${fieldOf(field)}, ${kindOf(kind)}. ${kept}`,
  'no-such-move': ({ kind, from, to }) =>
    `Ce passage n’est pas possible : ${kindOf(kind)}, de « ${stateOf(from)} » à « ${stateOf(to)} ». Quelqu’un l’a peut-être changé juste avant vous. ${kept}`,
  'verified-test': ({ field }) =>
    `Ce test est validé, donc clos (${fieldOf(field)}). Saisissez un nouveau test qui le remplace. ${kept}`,
  'second-current-test': ({ ear, condition }) =>
    `L’oreille ${earOf(ear)} a déjà un test en vigueur (${wordOf(words.condition, condition).toLowerCase()}). Remplacez d’abord celui-là. ${kept}`,
  'missing-reference': ({ field, id }) =>
    `Un renvoi (${fieldOf(field)}) mène à ${id}, qui n’est pas sur ce tableau. ${kept}`,
  'folded-twice': () =>
    `Une question se rattache à une question qui est seule. Rattachez-la plutôt à celle-là. ${kept}`,
  'not-waiting': () =>
    'Cette question n’attend plus seule et ne peut donc être retirée. Demandez au modérateur de l’écarter.',
  'folded-and-called': () =>
    `Cette question a été rattachée à une autre et appelée en même temps. Appelez celle qui vaut pour les deux. ${kept}`,
  'second-called-question': ({ text }) =>
    `Quelqu’un a appelé une autre question au même moment : « ${text} ». Appelez de nouveau la vôtre si elle doit prendre sa place.`,
  'too-often': ({ waitSeconds }) =>
    `Cela fait beaucoup en peu de temps. Attendez ${counted(waitSeconds, 'seconde', 'secondes')}, puis renvoyez. ${kept}`,
  'own-question': () => `On appuie les questions des autres. ${kept}`,
  'open-prerequisite': ({ title, needs }) =>
    `« ${title} » demande d’abord « ${needs} », qui n’est pas faite. Marquez celle-là, ou recommencez et dites pourquoi vous continuez sans elle. ${kept}`,
  'step-circle': ({ title }) =>
    `Avec ces préalables, l’étape « ${title} » devrait se précéder elle-même. Retirez-en un. ${kept}`,
  'step-in-use': ({ title }) =>
    `« ${title} » reste au dossier : une autre étape la demande, ou quelqu’un a dit pourquoi il continuait. Omettez-la plutôt.`,
  'case-closed': () =>
    `Ce cas est clos, et son dossier reste tel quel. Rouvrez-le dans les détails du cas, avec un motif. ${kept}`,
  'reopened-without-reason': () => `Un cas clos se rouvre avec un motif. Écrivez-le dans les détails du cas. ${kept}`,
  'reopened-while-open': () => `Ce cas est ouvert. Un motif s’écrit quand on le rouvre. ${kept}`,
  'closed-vote': () => `Ce vote est clos et reste au dossier. Ouvrez-en un autre. ${kept}`,
  'counted-by-server': () => `Seul le serveur compte un vote. Fermez-le, et le résultat s’écrit. ${kept}`,
  'too-many': ({ kind, most }) =>
    `Le tableau a déjà ${whole(most)} éléments de ce genre, le maximum : ${kindOf(kind)}. ${kept}`,
  'too-many-at-once': ({ most }) =>
    `Au plus ${most} profils, scénarios et prévisions sont pris en une fois. Envoyez-les l’un après l’autre. ${kept}`,
  'sealed-record': ({ kind, at }) =>
    `Scellé le ${dayAndClockOf(at)}, ceci ne peut plus changer ni disparaître : ${kindOf(kind)}. Écrivez-en un autre qui le remplace. ${kept}`,
  'second-profile': ({ profile, version }) =>
    `Il y a déjà un profil ${profile}, version ${version}. Donnez au vôtre une version supérieure. ${kept}`,
  'already-followed': ({ kind, id }) =>
    `Un autre élément suit déjà ${id} : ${kindOf(kind)}. Regardez celui-là et faites-lui suite. ${kept}`,
  'forecast-not-following': ({ id }) =>
    `Une prévision de cette oreille, option et scénario est déjà scellée (${id}). Scellez celle-ci à sa suite. ${kept}`,
  'forecast-after-outcome': ({ ear, performedOn }) =>
    `L’oreille ${earOf(ear)} a été testée avec le dispositif le ${calendarDayOf(performedOn)} : son résultat est connu, aucune prévision ne peut plus être scellée. Écrivez plutôt une note. ${kept}`,
  'forecast-stale-inputs': () =>
    `Le dossier a changé depuis le calcul de ces nombres. Regardez-les de nouveau, puis scellez. ${kept}`,
  'forecast-differs': ({ sealed, computed }) =>
    `Le serveur calcule d’autres nombres d’après le dossier (${computed}, pas ${sealed}). Rechargez la page pour que les deux calculent de même, puis scellez de nouveau. ${kept}`,
  'visit-in-future': ({ day }) =>
    `Le ${calendarDayOf(day)} n’est pas encore venu : aucune visite n’a eu lieu. Corrigez le jour, ou laissez la visite prévue. ${kept}`,
  'visit-without-operation': () =>
    `Ce cas n’a pas encore d’opération. Saisissez d’abord son jour, puis consignez la visite. ${kept}`,
  'before-operation': ({ day, operated }) =>
    `Le ${calendarDayOf(day)} précède l’opération du ${calendarDayOf(operated)}. Corrigez l’un des deux jours. ${kept}`,
  'operation-in-future': ({ day }) =>
    `Le ${calendarDayOf(day)} n’est pas encore venu : personne n’a été opéré. Corrigez le jour de l’opération. ${kept}`,
  'operation-after-visit': ({ day, visit }) =>
    `Une visite a eu lieu le ${calendarDayOf(visit)}, avant le ${calendarDayOf(day)}. Corrigez cette visite, ou le jour de l’opération. ${kept}`,
  'second-visit': ({ occasion }) =>
    `Il y a déjà une visite « ${wordOf(words.occasion, occasion)} ». Prenez celle-là, ou saisissez celle-ci hors calendrier. ${kept}`,
}

const requests: Readonly<Record<ApiErrorCode, string>> = {
  'bad-request': 'La demande n’a pas la forme voulue. Corrigez-la et réessayez.',
  'not-json': 'La demande n’a pas été envoyée en JSON. Rechargez la page et réessayez.',
  'too-large': 'La demande est trop longue ; raccourcissez le texte et renvoyez.',
  'cross-site': 'La demande venait d’un autre site. Ouvrez le tableau à sa propre adresse et réessayez.',
  'not-signed-in': 'Ouvrez le lien d’invitation que vous avez reçu pour entrer.',
  'not-permitted': 'Votre invitation ne couvre pas cela. Demandez à qui vous a invité un lien qui le couvre.',
  'not-found': 'Il n’y a rien à cette adresse. Vérifiez-la, ou partez de la liste des cas.',
  'method-not-allowed': 'Cette adresse n’accepte pas une telle demande.',
  'link-unknown':
    'Ce lien d’invitation n’est pas connu. Vérifiez que tout le lien a été copié, ou demandez-en un nouveau.',
  'link-expired': 'Ce lien d’invitation a expiré. Demandez-en un nouveau à qui vous l’a envoyé.',
  'link-revoked': 'Ce lien d’invitation a été retiré. Demandez-en un nouveau à qui vous l’a envoyé.',
  'too-many-attempts': 'Trop de liens ont été essayés d’ici. Attendez dix minutes et réessayez.',
  conflict: 'Quelqu’un d’autre a changé ceci en même temps. Rechargez la page.',
  'vote-closed': 'Ce vote est clos. Un bulletin déposé avant compte tel quel.',
  'too-many-requests': 'Trop de demandes à la fois. Attendez quelques secondes et continuez.',
  'no-consent':
    'Le consentement à la diffusion n’est pas consigné pour ce cas. Consignez-le dans les détails du cas, puis faites-le passer.',
  'bad-archive': 'Cette archive ne peut pas être reprise. Vérifiez le fichier, ou exportez le cas de nouveau.',
  'case-taken':
    'Un cas de cet identifiant est, ou était, ici. Rien n’a changé. Reprenez l’archive comme copie si elle doit exister à côté.',
  'case-erased': 'Ce cas a été effacé par le propriétaire de cette installation.',
  'label-differs': 'Ce qui a été tapé n’est pas le nom de ce cas. Rien n’a été effacé.',
  'no-header': 'Ce cas ne dit encore rien de son patient. Saisissez les détails du cas, puis exportez-le.',
  'picture-unknown-type': 'Ce n’est une image ni PNG ni JPEG. Enregistrez-la dans l’un de ces formats et renvoyez-la.',
  'picture-unsupported':
    'Ce genre d’image n’est pas pris : elle est animée, entrelacée ou en couleurs d’impression. Enregistrez-la en simple JPEG et renvoyez-la.',
  'picture-broken':
    'Cette image est abîmée, coupée, ou porte quelque chose après sa fin. Refaites-la ou enregistrez-la de nouveau.',
  'picture-too-large': 'Une photographie a au plus 1 Mo et 4096 pixels de côté. Réduisez-la et renvoyez-la.',
  'too-many-pictures': 'Ce cas a autant de photographies qu’un cas peut en avoir. Retirez-en une qui ne sert pas.',
  'edit-refused': 'Ceci n’a pas été écrit. Vérifiez ce que vous avez saisi et réessayez.',
  unavailable: 'Le serveur n’atteint pas ses données pour le moment. Réessayez dans une minute.',
  internal: 'Le serveur a fait une erreur. Réessayez ; si cela se répète, prévenez la personne qui l’exploite.',
}

export const refusals: Shape<typeof English> = {
  ofEdit: (refused: Refusal) => (edits[refused.code] as (facts: unknown) => string)(refused.facts),
  ofRequest: (code) => requests[code],
}
