import './require-node.mjs'

import('./steps/command.mjs').then(({ runBuilt }) => runBuilt('move-store'))
