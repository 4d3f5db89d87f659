import type { Refusal, RefusalCode, RefusalFacts } from './refusals.ts'

const kept = 'What you typed is kept as your draft.'

const sentences: { readonly [C in RefusalCode]: (facts: RefusalFacts[C]) => string } = {
  malformed: () => `The server could not read this edit. Reload the page and try again. ${kept}`,
  'too-large': ({ limitBytes }) => `This edit is larger than ${Math.floor(limitBytes / 1024)} KiB. Split it. ${kept}`,
  'too-fast': ({ perSecond }) =>
    `More than ${perSecond} edits a second came from this page. Wait a moment, then go on. ${kept}`,
  'foreign-client': () => `This copy of the page carries somebody else's mark. It is being renewed. ${kept}`,
  'incomplete-update': () =>
    `This edit builds on one that the server does not have. The page is being brought up to date. ${kept}`,
  'unknown-place': ({ path, problem }) => `The board has no place for this (${path}: ${problem}). ${kept}`,
  'not-permitted': ({ role, action, kind, field }) =>
    `As ${role} you cannot ${action} ${field === undefined ? '' : `"${field}" of `}${kind}. Ask the moderator. ${kept}`,
  'not-yours': ({ kind }) =>
    `Only the person who wrote it can change this part of ${kind}. Ask them, or the moderator. ${kept}`,
  'invalid-record': ({ path, problem }) => `${path}: ${problem}. Correct it and try again. ${kept}`,
  'wrong-author': ({ kind }) =>
    `An entry in ${kind} has to carry its writer's own name. Reload the page and try again. ${kept}`,
  'wrong-time': ({ at }) => `The time ${at} is not possible. Check the clock of this device, then try again. ${kept}`,
  'wrong-picture-time': ({ pictureAt, at }) =>
    `Written at ${at}, this cannot be about the picture of ${pictureAt}. Measure your video delay again. ${kept}`,
  'fixed-field': ({ kind, field }) => `"${field}" of ${kind} cannot change once written. ${kept}`,
  'no-such-move': ({ kind, from, to }) =>
    `${kind} cannot go from "${from}" to "${to}". Somebody may have moved it just before you. ${kept}`,
  'verified-test': ({ field }) =>
    `This test is verified, so "${field}" is closed. Enter a new test that supersedes it. ${kept}`,
  'second-current-test': ({ ear, condition }) =>
    `There is already a current ${condition} test of the ${ear} ear. Supersede that one first. ${kept}`,
  'missing-reference': ({ field, id }) => `"${field}" points to ${id}, which is not on this board. ${kept}`,
  'folded-twice': () => `A question folds into one that stands by itself. Fold it into that one instead. ${kept}`,
  'not-waiting': () =>
    'This question is no longer waiting by itself, so it cannot be withdrawn. Ask the moderator to set it aside.',
  'folded-and-called': () =>
    `This question was joined to another one and called at the same time. Call the one that stands for both. ${kept}`,
  'second-called-question': ({ text }) =>
    `Somebody called another question at the same moment: "${text}". Call yours again if it should take its place.`,
  'too-often': ({ waitSeconds }) =>
    `That was a great many in a short time. Wait ${waitSeconds} ${waitSeconds === 1 ? 'second' : 'seconds'}, then send it again. ${kept}`,
  'own-question': () => `One backs the questions of others. ${kept}`,
  'closed-vote': () => `This vote is closed and stays in the record. Open another one. ${kept}`,
  'counted-by-server': () => `Only the server counts a vote. Close it, and the result is written. ${kept}`,
  'too-many': ({ kind, most }) => `There are already ${most} entries in ${kind}, the most a board holds. ${kept}`,
  'too-many-at-once': ({ most }) =>
    `At most ${most} profiles, scenarios and forecasts are taken in one edit. Send them one after the other. ${kept}`,
  'sealed-record': ({ kind, at }) =>
    `This entry in ${kind} was sealed at ${at}: it can never change or go. Write another that takes its place. ${kept}`,
  'second-profile': ({ profile, version }) =>
    `There is already a profile ${profile}, version ${version}. Give yours a higher version. ${kept}`,
  'already-followed': ({ kind, id }) =>
    `Another entry in ${kind} already follows ${id}. Look at that one, and follow it instead. ${kept}`,
  'forecast-not-following': ({ id }) =>
    `A forecast of this ear, option and scenario is sealed already (${id}). Seal this one as following it. ${kept}`,
  'forecast-after-outcome': ({ ear, performedOn }) =>
    `The ${ear} ear was tested with the device on ${performedOn}: its outcome is known, and no forecast of it can be sealed. Write a note instead. ${kept}`,
  'forecast-stale-inputs': ({ what }) =>
    `The record has moved on since these numbers were computed (${what}). Look at them anew, then seal. ${kept}`,
  'forecast-differs': ({ what, sealed, computed }) =>
    `The server computes other numbers from the record (${what}: ${computed}, not ${sealed}). Reload the page, so that both compute alike, and seal again. ${kept}`,
  'visit-in-future': ({ day }) =>
    `${day} has not come yet, so no visit was held then. Correct the day, or leave the visit planned. ${kept}`,
  'visit-without-operation': () =>
    `This case has no operation yet. Enter the day of the operation first, then write down the visit. ${kept}`,
  'before-operation': ({ day, operated }) =>
    `${day} lies before the operation on ${operated}. Correct one of the two days. ${kept}`,
  'operation-in-future': ({ day }) =>
    `${day} has not come yet, so nobody was operated on then. Correct the day of the operation. ${kept}`,
  'operation-after-visit': ({ day, visit }) =>
    `A visit was held on ${visit}, before ${day}. Correct that visit, or the day of the operation. ${kept}`,
  'open-prerequisite': ({ title, needs }) =>
    `"${title}" needs "${needs}" first, and that is open. Mark that one, or begin again and say why you go on without it. ${kept}`,
  'step-circle': ({ title }) =>
    `With these prerequisites "${title}" would have to come before itself. Take one of them away. ${kept}`,
  'step-in-use': ({ title }) =>
    `"${title}" stays in the record: another step needs it, or somebody said why they went on. Leave it out instead.`,
  'case-closed': () =>
    `This case is closed, and its record stays as it is. Open it again in the case details, with a reason. ${kept}`,
  'reopened-without-reason': () => `A closed case is opened again with a reason. Write it in the case details. ${kept}`,
  'reopened-while-open': () => `This case is open. A reason is written when it is opened again. ${kept}`,
  'second-visit': ({ occasion }) =>
    `There is already a visit "${occasion}". Use that one, or enter this visit as unscheduled. ${kept}`,
}

export function sentenceOf(refused: Refusal): string {
  return (sentences[refused.code] as (facts: unknown) => string)(refused.facts)
}
