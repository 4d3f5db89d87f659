import { complex } from './complex.ts'
import { me1Values } from './me-1-values.ts'
import { modalDamping } from './modal-damping.ts'
import { type Direction, type ParameterSet, part } from './network.ts'

/** Points: 0 eardrum, 1 malleus, 2 incus, 3 stapes, all along one line. */
const eardrum: Direction = [1]
const malleus: Direction = [0, 1]
const incus: Direction = [0, 0, 1]
const stapes: Direction = [0, 0, 0, 1]

const lossFactors = [0.62073, 0.31639, 0.31858, 0.0031677]

/**
 * Alternate set after Lobato and others: four masses and seven springs fitted to one temporal bone, with one loss factor a
 * mode, without lever, cavities or a cochlea of its own. The notch near 3 kHz belongs to that one bone.
 * Source: doi 10.55753/aev.v35e52.34 and 10.17648/sobrac-87108; confirmed in the authors' public values
 * github.com/LucasCostaLobato/auditory-system-api, LVATB1.txt. A fixation changes the modes, and the losses with them.
 * Checked by: tests/published/middle-ear-alternates.test.ts
 */
export const altL: ParameterSet = {
  id: 'ALT-L',
  points: 4,
  parts: [
    part('eardrum', eardrum, { mass: 5.95e-6, stiffness: 162.09 }),
    part('eardrum-coupling', [1, -1], { stiffness: 36_933 }),
    part('malleus', malleus, { mass: 34.766e-6 }),
    part('malleus-ligaments', malleus, { stiffness: 893.15 }),
    part('malleus-incus-joint', [0, 1, -1], { stiffness: 11_410 }),
    part('incus', incus, { mass: 33.677e-6 }),
    part('incus-ligaments', incus, { stiffness: 128.91 }),
    part('incus-stapes-joint', [0, 0, 1, -1], { stiffness: 12_581 }),
    part('stapes', stapes, { mass: 2.1204e-6 }),
    part('annular-ligament', stapes, { stiffness: 763.54 }),
  ],
  sites: {
    malleus,
    'incus-body': [0, 0, me1Values.beta.value],
    'incus-long-process': incus,
    'stapes-head': stapes,
    'oval-window': stapes,
  },
  soundAlong: eardrum,
  outlet: stapes,
  hasCavity: false,
  acousticsAt: () => ({ elements: [], soundForce: complex(60.655e-6, 0) }),
  dampingOf: (parts) => modalDamping(parts, 4, lossFactors),
}
