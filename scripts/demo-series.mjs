// An invented series in a data folder of its own, so that it never mixes with real cases.
process.env.DEMO = 'series'
process.env.DATA_DIR = 'data-series'

import('./start.mjs')
