import './require-node.mjs'

import('./steps/dev.mjs')
