import './require-node.mjs'

// Loaded only now: what follows may be newer than what an old Node can read.
import('./steps/start.mjs')
