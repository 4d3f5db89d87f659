import { code } from './code.ts'
import { handout } from './handout.ts'
import { screen } from './screen.ts'
import { theatre } from './theatre.ts'

/** The pages beside the board: main screen, theatre view, handout, and the check of a code. */
export const screens = { code, handout, screen, theatre } as const
