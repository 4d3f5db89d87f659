import { type Messages, messages } from './en.ts'

/** The sentences of the page's language. */
export const useMessages = (): Messages => messages
