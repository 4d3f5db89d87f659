import type { usualSteps as English } from '../en/usual-steps.ts'
import type { Shape } from '../part.ts'

export const usualSteps: Shape<typeof English> = {
  identity: {
    title: 'Identité, côté, consentement, imagerie à l’écran',
    check:
      'Côté marqué, audiogramme de moins de 3 mois, scanner relu, dispositif et tailles de coupleur présents en salle',
    hazard: 'Erreur de côté ; coupleur manquant',
  },
  anaesthesia: {
    title: 'Anesthésie sans curarisation prolongée, monitorage du nerf facial',
    check: 'Le monitorage répond à la stimulation et se tait sans elle',
    hazard: 'Lésion du nerf facial passée inaperçue',
  },
  marking: {
    title: 'Marquer l’implant et l’incision, infiltrer',
    check:
      'Gabarit de l’implant à distance du pavillon et des lunettes, épaisseur de la peau mesurée (limite de l’aimant selon la notice)',
    hazard: 'Lambeau trop épais pour la transmission ; cicatrice sur l’implant',
  },
  incision: {
    title: 'Incision et poche sous-périostée',
    check: 'Hémostase complète avant d’ouvrir l’implant',
    hazard: 'Hématome',
  },
  mastoidectomy: {
    title: 'Mastoïdectomie corticale',
    check: 'Tegmen, sinus sigmoïde, antre, canal semi-circulaire latéral identifiés dans cet ordre',
    hazard: 'Dure-mère, sinus, canal latéral',
  },
  antrotomy: {
    title: 'Antrotomie jusqu’à la courte apophyse et au corps de l’enclume',
    check: 'Courte apophyse et corps vus et mobiles',
    hazard: 'Luxation de l’enclume par la fraise ; contact à grande vitesse : traumatisme de l’oreille interne',
  },
  posteriorTympanotomy: {
    title: 'Tympanotomie postérieure',
    check: 'Appui osseux de la courte apophyse conservé, nerf facial sous l’os, corde du tympan vue',
    hazard: 'Nerf facial, corde du tympan, anneau tympanique',
  },
  transcanal: {
    title: 'Voie transcanalaire ou combinée',
    check: 'Anneau tympanique soulevé, corde du tympan conservée',
    hazard: 'Déchirure de la peau du conduit, perforation du tympan',
  },
  windowNiche: {
    title: 'Niche de la fenêtre ronde : enlever le surplomb osseux',
    check: 'Membrane vue en entier, vitesse lente, aucune aspiration sur elle',
    hazard: 'Fuite de périlymphe, traumatisme sonore, golfe de la jugulaire',
  },
  ossicles: {
    title: 'Éprouver la mobilité de chaque osselet',
    check:
      'Marteau, enclume, étrier mobilisés chacun à la pointe fine, réflexe de la fenêtre ronde ; noter mobile, raide ou fixé',
    hazard: 'Forcer un étrier fixé',
  },
  fixation: {
    title: 'Libérer ou retirer une fixation',
    check: 'Mobilité contrôlée de nouveau ; lame ou espace contre une nouvelle fixation',
    hazard: 'Choc sur l’oreille interne ; changement de site',
  },
  bed: {
    title: 'Fraiser le lit de l’implant et la gouttière du câble',
    check: 'Profondeur et gabarit ajustés, câble sans tension',
    hazard: 'Dure-mère, sinus, veine émissaire',
  },
  skullBed: {
    title: 'Fraiser le lit du transducteur à conduction osseuse',
    check: 'Profondeur et gabarit ajustés, épaisseur de l’os comme sur l’imagerie',
    hazard: 'Dure-mère, sinus, veine émissaire',
  },
  coagulation: {
    title: 'Dernière coagulation avant de sortir le dispositif de son emballage',
    check:
      'Plus de monopolaire dès lors à la tête ni au cou ; bipolaire seule, sans jamais toucher le dispositif, à la distance de la notice',
    hazard: 'Dispositif ou tissus lésés par le courant',
  },
  implant: {
    title: 'Fixer l’implant',
    check: 'Stable à la pression ; boucle de câble',
    hazard: 'Migration de l’implant',
  },
  actuator: {
    title: 'Attacher le transducteur',
    check:
      'Axe selon le mouvement de piston de l’étrier, aucun contact avec l’os, la corde, le tympan ou le promontoire ; pression de contact légère',
    hazard: 'Nécrose de l’enclume, luxation, chaîne bloquée par une charge excessive',
  },
  couplingTest: {
    title: 'Test de couplage',
    check:
      'Test du dispositif ou de transfert inverse s’il existe, réponse auditive du tronc cérébral ou à la fenêtre ronde, mouvement visible de l’étrier ; peu de changement au toucher du câble',
    hazard: 'Faux contact',
  },
  stabilise: {
    title: 'Stabiliser (fascia, cartilage, ciment là où il est autorisé)',
    check: 'Test de couplage refait',
    hazard: 'Ciment sur l’articulation ou l’étrier',
  },
  closure: {
    title: 'Câble et fermeture plan par plan',
    check: 'Câble sous le rebord osseux ; radiographie ou scanner si la position est douteuse',
    hazard: 'Câble dans le conduit, infection',
  },
  skullClosure: {
    title: 'Fermeture plan par plan',
    check: 'Plaie sèche, dispositif couvert comme le veut la notice',
    hazard: 'Infection',
  },
  function: {
    title: 'Fonction faciale, nystagmus, audition au diapason',
    check: 'Consignés avant la sortie du bloc et au lendemain',
    hazard: 'Paralysie faciale tardive, vertige',
  },
}
