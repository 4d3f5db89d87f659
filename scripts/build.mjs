import './require-node.mjs'

import('./steps/build.mjs').then(({ build }) => build())
