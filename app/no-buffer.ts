/** Stands in for Node's Buffer, which lib0 names for servers only: its stand-in would be 8 kB of every page. */
export const Buffer = undefined
