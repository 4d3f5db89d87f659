import type { screens as English } from '../en/screens.ts'
import type { Shape } from '../part.ts'
import { code } from './code.ts'
import { handout } from './handout.ts'
import { screen } from './screen.ts'
import { theatre } from './theatre.ts'

export const screens: Shape<typeof English> = { code, handout, screen, theatre }
