import { add, type Complex, complex, parallel, scale, zero } from './complex.ts'
import { me1Values } from './me-1-values.ts'
import { type Cavity, type Direction, impedanceOf, type ParameterSet, part } from './network.ts'

/** The numbers alone, under their symbols. */
function valuesOf<Symbols extends string>(
  table: Readonly<Record<Symbols, { readonly value: number }>>,
): Readonly<Record<Symbols, number>> {
  const entries = Object.entries<{ readonly value: number }>(table).map(([symbol, { value }]) => [symbol, value])
  return Object.fromEntries(entries)
}

const { A_TM, A_FP, r, C_TS, R_TS, m_M, m_I, R_M, R_I, K_M, K_I, K_IM, K_IS, R_IM, R_IS, m_S, C_AL, R_D, C_RW } =
  valuesOf(me1Values)
const { A_RW, beta } = valuesOf(me1Values)

/** Points: 0 eardrum, 1 malleus (umbo), 2 incus (tip of the long process), 3 stapes. */
const eardrum: Direction = [1]
const malleus: Direction = [0, 1]
const incus: Direction = [0, 0, 1]
const stapes: Direction = [0, 0, 0, 1]

/** Direction 4 is the axis of the incus, which moves only where it is assumed to yield. */
const incusBody: Direction = [0, 0, beta, 0, 1 - beta]
/** Direction 5 is the flow through a third window over the footplate area, where there is one. */
const throughCochlea: Direction = [0, 0, 0, 1, 0, 1]
const onRoundWindow: Direction = [0, 0, 0, -A_FP / A_RW, 0, -A_FP / A_RW]

/** Acoustic values of eardrum and cavities that differ between ears. */
export const acousticValues = valuesOf({
  C_TC: me1Values.C_TC,
  L_A: me1Values.L_A,
  R_A: me1Values.R_A,
  C_MC: me1Values.C_MC,
  L_T1: me1Values.L_T1,
  C_T: me1Values.C_T,
  R_T: me1Values.R_T,
  L_T: me1Values.L_T,
  C_T2: me1Values.C_T2,
  R_T2: me1Values.R_T2,
})
export type AcousticValues = typeof acousticValues

const air = (resistance: number, inertance: number, compliance: number, omega: number): Complex =>
  impedanceOf({ resistance, mass: inertance, stiffness: 1 / compliance }, omega)

/** Impedance of eardrum and cavities against sound, as seen by the eardrum as a piston, N s/m. */
export function eardrumImpedance(values: AcousticValues, frequencyHz: number, cavity: Cavity): Complex {
  const omega = 2 * Math.PI * frequencyHz
  const { C_TC, L_A, R_A, C_MC, L_T1, C_T, R_T, L_T, C_T2, R_T2 } = values
  const cavities = cavity === 'open' ? zero : parallel(air(0, 0, C_TC, omega), air(R_A, L_A, C_MC, omega))
  const branches = parallel(air(R_T, L_T, C_T, omega), air(R_T2, 0, C_T2, omega))
  return scale(add(add(cavities, complex(0, omega * L_T1)), branches), A_TM ** 2)
}

/**
 * The base set. Sound works on cavities, eardrum, malleus, incus and stapes in this order; the stapes moves the cochlea
 * against the round window.
 * Source: Rosowski 1993, Kringlebotn 1988, with the changes told at `me1Values`.
 */
export const me1: ParameterSet = {
  id: 'ME-1',
  points: 4,
  parts: [
    part('eardrum-coupling', [1, -1], { resistance: R_TS, stiffness: 1 / C_TS }),
    part('malleus', malleus, { mass: m_M, resistance: R_M }),
    part('malleus-ligaments', malleus, { stiffness: K_M }),
    part('malleus-incus-joint', [0, 1 / r, -1], { resistance: R_IM, stiffness: K_IM }),
    part('incus', incus, { mass: m_I, resistance: R_I }),
    part('incus-ligaments', incus, { stiffness: K_I }),
    part('incus-stapes-joint', [0, 0, 1, -1], { resistance: R_IS, stiffness: K_IS }),
    part('stapes', stapes, { mass: m_S }),
    part('annular-ligament', stapes, { stiffness: A_FP ** 2 / C_AL }),
    part('cochlea', throughCochlea, { resistance: A_FP ** 2 * R_D }),
    part('round-window', throughCochlea, { stiffness: A_FP ** 2 / C_RW }),
  ],
  sites: {
    malleus,
    'incus-body': incusBody,
    'incus-long-process': incus,
    'stapes-head': stapes,
    'oval-window': stapes,
    'round-window': onRoundWindow,
  },
  soundAlong: eardrum,
  outlet: throughCochlea,
  hasCavity: true,
  acousticsAt: (frequencyHz, cavity) => ({
    elements: [{ along: eardrum, z: eardrumImpedance(acousticValues, frequencyHz, cavity) }],
    soundForce: complex(A_TM, 0),
  }),
}
