import type { OssicleState } from '../../lib/board/records/plan.ts'
import type { Occasion } from '../../lib/board/records/visit.ts'
import type { CouplingSite, DeviceClass } from '../../lib/devices/classes.ts'
import type { Pathology } from '../../lib/devices/pathology.ts'
import type { Ear } from '../../lib/units/frequencies.ts'

/** Draws numbers in [0, 1). */
export type Draw = () => number

export const inventedFrequencies = [250, 500, 1000, 2000, 3000, 4000, 6000, 8000] as const

/** An invented ear in the numbers that a clinic writes down; levels in dB HL at `inventedFrequencies`, in steps of 5 dB. */
export interface InventedEar {
  readonly ear: Ear
  readonly deviceClass: DeviceClass
  readonly couplingSite: CouplingSite
  readonly pathology: Pathology
  readonly malleus: OssicleState
  readonly incus: OssicleState
  readonly stapes: OssicleState
  readonly tags: readonly string[]
  readonly operatedDaysAgo: number
  readonly air: readonly number[]
  /** null where a vibrator gives too little */
  readonly bone: readonly (number | null)[]
  /** words right of 20, unaided */
  readonly wordsBefore: number
  readonly visits: readonly InventedVisit[]
}

export interface InventedVisit {
  readonly occasion: Exclude<Occasion, 'yearly' | 'unscheduled'>
  readonly daysAgo: number
  /** null where it was not tested */
  readonly aided: readonly (number | null)[]
  readonly wordsRight: number | null
}

interface Kind {
  readonly deviceClass: DeviceClass
  readonly couplingSite: CouplingSite
  readonly share: number
  /** effective gain, dB: invented, in the order of what is published */
  readonly gainDb: readonly number[]
}

const kinds: readonly Kind[] = [
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'incus-long-process',
    share: 0.34,
    gainDb: [-6, -2, 4, 9, 10, 9, 4, 1],
  },
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'incus-body',
    share: 0.16,
    gainDb: [-7, -3, 4, 8, 7, 3, -3, -7],
  },
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'stapes-head',
    share: 0.18,
    gainDb: [-4, 0, 6, 9, 8, 6, 0, -3],
  },
  {
    deviceClass: 'active-middle-ear-implant',
    couplingSite: 'round-window',
    share: 0.18,
    gainDb: [-9, -5, 1, 5, 3, 0, -6, -9],
  },
  {
    deviceClass: 'active-transcutaneous-bone-conduction',
    couplingSite: 'skull',
    share: 0.14,
    gainDb: [-4, 1, 4, 3, 0, -2, -6, -10],
  },
]

const visitPlan = [
  { occasion: 'first-fitting', days: 42, comes: 1, lostDb: 4 },
  { occasion: '3-months', days: 135, comes: 0.9, lostDb: 0 },
  { occasion: '12-months', days: 410, comes: 0.78, lostDb: 0 },
] as const

const pathologies: readonly Pathology[] = [
  'chronic-otitis-media',
  'chronic-otitis-media',
  'cholesteatoma',
  'cholesteatoma',
  'otosclerosis',
  'tympanosclerosis',
  'atresia',
  'trauma',
  'sensorineural-loss',
]

export function inventedEar(draw: Draw): InventedEar {
  const normal = () => Math.sqrt(-2 * Math.log(1 - draw())) * Math.cos(2 * Math.PI * draw())
  const kind = kindBy(draw())
  const severity = 14 + 22 * draw()
  const slope = 4 + 5 * draw()
  const gap = 26 + 5 * normal()
  const bone = inventedFrequencies.map((_, index) => toStep(clamp(severity + slope * index + 4 * normal(), -5, 65)))
  const air = bone.map((level) => toStep(clamp(level + gap + 4 * normal(), 5, 115)))
  const ofEar = -5 + 6 * normal()
  const atFrequency = inventedFrequencies.map(() => 5 * normal())
  const operatedDaysAgo = Math.floor(60 + 1800 * draw())
  const visits = visitPlan
    .filter(({ days, comes }) => days < operatedDaysAgo && draw() < comes)
    .map(({ occasion, days, lostDb }): InventedVisit => {
      const aided = bone.map((level, index) => {
        const gain = (kind.gainDb[index] ?? 0) + ofEar + (atFrequency[index] ?? 0) - lostDb
        const isTested = index < 6 || draw() < 0.8
        return isTested ? toStep(clamp(level - gain + 3 * normal(), 5, 90)) : null
      })
      const wordsRight = draw() < 0.85 ? Math.round(clamp(16.5 - severity / 12 + 1.6 * normal(), 0, 20)) : null
      return { occasion, daysAgo: operatedDaysAgo - days, aided, wordsRight }
    })
  return {
    ear: draw() < 0.5 ? 'right' : 'left',
    deviceClass: kind.deviceClass,
    couplingSite: kind.couplingSite,
    pathology: pathologies[Math.floor(draw() * pathologies.length)] ?? 'other',
    ...chainFor(kind, draw()),
    tags: [...(draw() < 0.15 ? ['second operation'] : []), ...(draw() < 0.1 ? ['open cavity'] : [])],
    operatedDaysAgo,
    air,
    bone: bone.map((level, index) => (index > 5 ? null : level)),
    wordsBefore: Math.round(clamp(9 - gap / 6 - severity / 12 + 2 * normal() + 4, 0, 20)),
    visits,
  }
}

function kindBy(share: number): Kind {
  let left = share
  for (const kind of kinds) {
    left -= kind.share
    if (left < 0) return kind
  }
  return kinds[0] as Kind
}

function chainFor({ couplingSite }: Kind, share: number): Pick<InventedEar, 'malleus' | 'incus' | 'stapes'> {
  switch (couplingSite) {
    case 'incus-long-process':
    case 'incus-body':
      return { malleus: 'mobile', incus: 'mobile', stapes: share < 0.2 ? 'stiff' : 'mobile' }
    case 'stapes-head':
      return { malleus: 'mobile', incus: share < 0.7 ? 'missing' : 'eroded', stapes: 'mobile' }
    case 'oval-window':
    case 'round-window':
      return { malleus: 'missing', incus: 'missing', stapes: share < 0.3 ? 'fixed' : 'missing' }
    case 'skull':
      return { malleus: 'not-known', incus: 'not-known', stapes: 'not-known' }
  }
}

const clamp = (value: number, low: number, high: number): number => Math.min(high, Math.max(low, value))
const toStep = (level: number): number => Math.round(level / 5) * 5
