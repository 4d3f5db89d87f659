/** Why an edit was refused: a code with its facts. What people read of it: refusal-sentences.ts and app/messages. */
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
  'wrong-picture-time': { readonly pictureAt: string; readonly at: string }
  'fixed-field': { readonly kind: string; readonly field: string }
  'no-such-move': { readonly kind: string; readonly from: string; readonly to: string }
  'verified-test': { readonly field: string }
  'second-current-test': { readonly ear: string; readonly condition: string }
  'missing-reference': { readonly field: string; readonly id: string }
  'folded-twice': Record<string, never>
  'not-waiting': Record<string, never>
  'folded-and-called': Record<string, never>
  'second-called-question': { readonly text: string }
  'own-question': Record<string, never>
  'too-often': { readonly kind: string; readonly waitSeconds: number }
  'closed-vote': Record<string, never>
  'counted-by-server': Record<string, never>
  'too-many': { readonly kind: string; readonly most: number }
  'too-many-at-once': { readonly most: number }
  'sealed-record': { readonly kind: string; readonly at: string }
  'second-profile': { readonly profile: string; readonly version: number }
  'already-followed': { readonly kind: string; readonly id: string }
  'forecast-not-following': { readonly id: string }
  'forecast-after-outcome': { readonly ear: string; readonly performedOn: string }
  'forecast-stale-inputs': { readonly what: string }
  'forecast-differs': { readonly what: string; readonly sealed: string; readonly computed: string }
  'visit-in-future': { readonly day: string }
  'visit-without-operation': Record<string, never>
  'before-operation': { readonly day: string; readonly operated: string }
  'operation-in-future': { readonly day: string }
  'operation-after-visit': { readonly day: string; readonly visit: string }
  'second-visit': { readonly occasion: string }
  'open-prerequisite': { readonly title: string; readonly needs: string }
  'step-circle': { readonly title: string }
  'step-in-use': { readonly title: string }
  'case-closed': Record<string, never>
  'reopened-without-reason': Record<string, never>
  'reopened-while-open': Record<string, never>
}
export type RefusalCode = keyof RefusalFacts

export type Refusal = {
  readonly [C in RefusalCode]: { readonly code: C; readonly path: string; readonly facts: RefusalFacts[C] }
}[RefusalCode]

export function refusal<C extends RefusalCode>(code: C, path: string, facts: RefusalFacts[C]): Refusal {
  return { code, path, facts } as Refusal
}
