import type { DemoPerson } from './demo-case.ts'

/** Invented people of an invented meeting. */
export const moderator: DemoPerson = {
  id: 'demo-moderator',
  name: 'Dr Juniper',
  affiliation: 'Chair of the meeting (invented)',
  role: 'moderator',
}
export const surgeon: DemoPerson = {
  id: 'demo-surgeon',
  name: 'Dr Alder',
  affiliation: 'Harbour clinic (invented), surgeon',
  role: 'team',
}
export const audiologist: DemoPerson = {
  id: 'demo-audiologist',
  name: 'Ms Birch',
  affiliation: 'Harbour clinic (invented), audiologist',
  role: 'team',
}
export const scribe: DemoPerson = {
  id: 'demo-scribe',
  name: 'Mr Cedar',
  affiliation: 'Harbour clinic (invented), scribe',
  role: 'team',
}
export const expertNorth: DemoPerson = {
  id: 'demo-panel-north',
  name: 'Prof. Hazel',
  affiliation: 'Northern ear unit (invented)',
  role: 'panel',
}
export const expertSouth: DemoPerson = {
  id: 'demo-panel-south',
  name: 'Dr Rowan',
  affiliation: 'Southern ear unit (invented)',
  role: 'panel',
}
export const expertEast: DemoPerson = {
  id: 'demo-panel-east',
  name: 'Dr Willow',
  affiliation: 'Eastern ear unit (invented)',
  role: 'panel',
}

export const everybody = [moderator, surgeon, audiologist, scribe, expertNorth, expertSouth, expertEast]
