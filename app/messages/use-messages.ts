import { type Messages, messages } from './en.ts'

export type { Messages }

/** The sentences of the page's language. */
export const useMessages = (): Messages => messages
