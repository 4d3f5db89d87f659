import './require-node.mjs'

import('./steps/test.mjs')
