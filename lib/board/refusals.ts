/** Why an edit was refused: a code with its facts. The sentence is made here, for people, in the language of the page. */
export interface RefusalFacts {
  malformed: Record<string, never>
  'too-large': { readonly limitBytes: number }
  'too-fast': { readonly perSecond: number }
  'foreign-client': Record<string, never>
  'incomplete-update': Record<string, never>
  'unknown-place': { readonly path: string; readonly problem: string }
  'not-permitted': {
    readonly role: string
    readonly action: 'create' | 'change' | 'remove'
    readonly kind: string
    readonly field?: string
  }
  'not-yours': { readonly kind: string }
  'invalid-record': { readonly path: string; readonly problem: string }
  'wrong-author': { readonly kind: string }
  'wrong-time': { readonly at: string }
  'fixed-field': { readonly kind: string; readonly field: string }
  'no-such-move': { readonly kind: string; readonly from: string; readonly to: string }
  'verified-test': { readonly field: string }
  'second-current-test': { readonly ear: string; readonly condition: string }
  'missing-reference': { readonly field: string; readonly id: string }
  'folded-twice': Record<string, never>
  'own-question': Record<string, never>
  'too-many': { readonly kind: string; readonly most: number }
}
export type RefusalCode = keyof RefusalFacts

export type Refusal = {
  readonly [C in RefusalCode]: { readonly code: C; readonly path: string; readonly facts: RefusalFacts[C] }
}[RefusalCode]

export function refusal<C extends RefusalCode>(code: C, path: string, facts: RefusalFacts[C]): Refusal {
  return { code, path, facts } as Refusal
}

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
  'fixed-field': ({ kind, field }) => `"${field}" of ${kind} cannot change once written. ${kept}`,
  'no-such-move': ({ kind, from, to }) =>
    `${kind} cannot go from "${from}" to "${to}". Somebody may have moved it just before you. ${kept}`,
  'verified-test': ({ field }) =>
    `This test is verified, so "${field}" is closed. Enter a new test that supersedes it. ${kept}`,
  'second-current-test': ({ ear, condition }) =>
    `There is already a current ${condition} test of the ${ear} ear. Supersede that one first. ${kept}`,
  'missing-reference': ({ field, id }) => `"${field}" points to ${id}, which is not on this board. ${kept}`,
  'folded-twice': () => `A question folds into one that stands by itself. Fold it into that one instead. ${kept}`,
  'own-question': () => `One backs the questions of others. ${kept}`,
  'too-many': ({ kind, most }) => `There are already ${most} entries in ${kind}, the most a board holds. ${kept}`,
}

export function sentenceOf(refused: Refusal): string {
  return (sentences[refused.code] as (facts: unknown) => string)(refused.facts)
}
