export const forecast = {} as const
