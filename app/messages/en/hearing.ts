export const hearing = {} as const
