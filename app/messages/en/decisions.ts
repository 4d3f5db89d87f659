export const decisions = {} as const
