import type { DeviceProfile } from '../../devices/device-profile.ts'
import type { EvidenceSource } from '../../devices/evidence-source.ts'
import { gainRow, gainTable, outputTable } from './shared-evidence.ts'

const cochlearLoss: EvidenceSource = {
  id: 'class-by-cochlear-loss',
  citation: 'Review of implantable hearing devices, GMS Curr Top Otorhinolaryngol 2017;16, cto000145',
  status: 'confirmed',
  readAt: 'https://www.egms.de/static/en/journals/cto/2017-16/cto000145.shtml',
}
const flatBed: EvidenceSource = {
  id: 'flat-transducer-bed',
  citation:
    'Temporal bone thickness, 197 scans: a flat transducer with a bed of 3 mm fits all adults and all children from 5 years; deeper transducers need more',
  status: 'confirmed',
  readAt: 'https://litmetric.com/detail/33044335 (abstract)',
}
const sources = [gainTable, outputTable, cochlearLoss]

export const activeTranscutaneous: DeviceProfile = {
  id: 'active-transcutaneous-bone-conduction',
  version: 1,
  deviceClass: 'active-transcutaneous-bone-conduction',
  candidacy: {
    remark: 'Mild cochlear loss at most. Bone thick enough for the transducer. Limits of the labelling decide.',
    source: cochlearLoss.id,
  },
  couplings: [
    {
      sites: ['skull'],
      gain: gainRow([-10, -3, 0, 0, -5]),
      outputs: [{ id: 'implant', lowDbHl: 60, highDbHl: 70, source: outputTable.id }],
      wordAnchors: [],
    },
  ],
  bodies: [
    {
      id: 'flat-transducer',
      drive: 'skull-transducer',
      envelope: [{ dimension: 'bed-depth', mm: 3 }],
      source: flatBed.id,
    },
  ],
  sources: [...sources, flatBed],
}

export const passiveTranscutaneous: DeviceProfile = {
  id: 'passive-transcutaneous-bone-conduction',
  version: 1,
  deviceClass: 'passive-transcutaneous-bone-conduction',
  candidacy: {
    remark: 'Mild cochlear loss at most. Loss through the flap grows with frequency. Limits of the labelling decide.',
    source: cochlearLoss.id,
  },
  couplings: [
    {
      sites: ['skull'],
      gain: gainRow([-8, -3, -3, -8, -12]),
      outputs: [{ id: 'implant', lowDbHl: 50, highDbHl: 60, source: outputTable.id }],
      wordAnchors: [],
    },
  ],
  sources,
}

export const percutaneous: DeviceProfile = {
  id: 'percutaneous-bone-anchored',
  version: 1,
  deviceClass: 'percutaneous-bone-anchored',
  candidacy: {
    remark: 'Moderate cochlear loss with a power processor. Skin care for life. Limits of the labelling decide.',
    source: cochlearLoss.id,
  },
  couplings: [
    {
      sites: ['skull'],
      gain: gainRow([-5, 0, 2, 0, -3]),
      outputs: [
        { id: 'standard-processor', lowDbHl: 63, highDbHl: 70, source: outputTable.id },
        { id: 'power-processor', lowDbHl: 70, highDbHl: 85, source: outputTable.id },
      ],
      wordAnchors: [],
    },
  ],
  sources,
}
