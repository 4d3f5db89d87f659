export const floor = {} as const
