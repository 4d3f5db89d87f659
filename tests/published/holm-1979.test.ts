// Holm S, Scand J Statist 6:65-70, 1979. The example of the public encyclopedia's article on the method: p = 0.01, 0.04,
// 0.03, 0.005 at 0.05 rejects the first and the last (0.005 < 0.05/4, 0.01 < 0.05/3, 0.03 > 0.05/2). The adjusted values
// follow by hand: 4 x 0.005, 3 x 0.01, 2 x 0.03, and the last not below the one before.
import { it } from 'vitest'
import { holmAdjusted } from '../../lib/outcomes/holm.ts'
import { checkValue } from './record-check.ts'

const source = 'Holm 1979, step-down procedure'

it('rejects what the worked example rejects', () => {
  const adjusted = holmAdjusted([0.01, 0.04, 0.03, 0.005])
  const why = 'products of two-digit numbers'
  checkValue({
    source,
    what: 'adjusted',
    expected: [0.03, 0.06, 0.06, 0.02],
    actual: [...adjusted],
    tolerance: 1e-12,
    why,
  })
  const rejected = adjusted.map((p) => String(p < 0.05))
  checkValue({
    source,
    what: 'rejected at 0.05',
    expected: ['true', 'false', 'false', 'true'],
    actual: rejected,
    tolerance: 0,
    why: 'a decision',
  })
})
