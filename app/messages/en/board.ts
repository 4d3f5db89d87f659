export const board = {
  unknownPerson: 'Somebody no longer listed',
}
