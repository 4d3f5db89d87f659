import type { Scope } from './store.ts'

/** A scope as both keepers have it in their rows. */
export interface ScopeColumns {
  readonly scopeKind: Scope['kind']
  readonly scopeId: string
}

export const toColumns = (scope: Scope): ScopeColumns => ({
  scopeKind: scope.kind,
  scopeId: scope.kind === 'installation' ? '' : scope.id,
})

/** A row with the two columns in place of which its record has a scope. */
export function withScope<Row extends ScopeColumns>({
  scopeKind,
  scopeId,
  ...rest
}: Row): Omit<Row, keyof ScopeColumns> & { scope: Scope } {
  return { ...rest, scope: scopeKind === 'installation' ? { kind: scopeKind } : { kind: scopeKind, id: scopeId } }
}
