import * as z from 'zod/mini'

/** Light for the clinic, dim for the theatre. */
export const Theme = z.enum(['clinic', 'theatre'])
export type Theme = z.infer<typeof Theme>

/** The choice is kept in a cookie, so that the server already draws the page in it. */
export const themeCookie = 'theme'
const yearSeconds = 365 * 24 * 3600

export const themeCookieText = (theme: Theme): string =>
  `${themeCookie}=${theme}; Path=/; Max-Age=${yearSeconds}; SameSite=Lax`
