import './require-node.mjs'

import('./steps/ticket.mjs')
