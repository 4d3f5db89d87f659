import './require-node.mjs'

import('./steps/command.mjs').then(({ runBuilt }) => runBuilt('check-store'))
