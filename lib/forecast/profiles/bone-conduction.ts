import type { DeviceProfile } from '../device-profile.ts'
import type { EvidenceSource } from '../evidence.ts'
import { gainRow, gainTable, outputTable } from './shared-evidence.ts'

const cochlearLoss: EvidenceSource = {
  id: 'class-by-cochlear-loss',
  citation: 'Review of implantable hearing devices, GMS Curr Top Otorhinolaryngol 2017;16, cto000145',
  status: 'confirmed',
  readAt: 'https://www.egms.de/static/en/journals/cto/2017-16/cto000145.shtml',
}
const sources = [gainTable, outputTable, cochlearLoss]

export const activeTranscutaneous: DeviceProfile = {
  id: 'active-transcutaneous-bone-conduction',
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
  sources,
}

export const passiveTranscutaneous: DeviceProfile = {
  id: 'passive-transcutaneous-bone-conduction',
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
