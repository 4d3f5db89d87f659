import type { learning as English } from '../en/learning.ts'
import type { Shape } from '../part.ts'

export const learning: Shape<typeof English> = {
  title: 'Série propre',
  use: 'Apprendre de notre propre série',
  loading: 'Chargement des résultats de la série propre',
  off: 'Données publiées seules.',
  noOption: 'Choisissez dans le plan une classe de dispositif et un site de couplage.',
  speaking: (n) =>
    n === 0
      ? 'Aucune autre de vos oreilles avec cette option n’a encore de résultat : données publiées seules.'
      : n === 1
        ? '1 de vos oreilles avec cette option compte à côté de la moyenne publiée, qui vaut dix oreilles.'
        : `${n} de vos oreilles avec cette option comptent à côté de la moyenne publiée, qui vaut dix oreilles.`,
  few: 'Moins de cinq : elles déplacent peu la prévision, et c’est voulu.',
  sealing: 'Ce que vous scellez ou figez laisse la série de côté, afin que chacun puisse le recalculer.',
  again: 'Réessayer',
}
