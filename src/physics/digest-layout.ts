/**
 * Where the numbers of a channel digest lie: one row per shape, per panel and per lobe.
 *
 * An object to be taken apart where it is used: constants of the own module fold into a loop,
 * imported ones are looked up each time.
 */
export const DIGEST = {
  /** Stations per panel: what a panel holds is averaged once, then read at every flow tried. */
  STATIONS_PER_PANEL: 4,
  /** Bends kept apart per shape; further ones share the last place. */
  MAX_LOBES: 6,
  /** Fields of a panel. */
  PANEL_FIELDS: 10,
  /** Reynolds number per flow [s/m3]. */
  P_REYNOLDS: 0,
  /** Mean of 4 sqrt(A)/D_h rho/(2 A^2): laminar loss per flow squared and unit of apparentSum [Pa s2/m6]. */
  P_ENTRY: 1,
  /** Developed Fanning friction times Re on sqrt(A) [-]. */
  P_DEVELOPED: 2,
  /** sqrt(D_h/(2R)) with the relaxed curvature [-]; times Re the Dean number. */
  P_BEND: 3,
  /** (eps/(3.7 D_h))^1.11, the roughness term of Haaland [-]. */
  P_ROUGH: 4,
  /** Length over D_h times rho/(2 A^2): turbulent loss per Darcy factor and flow squared [Pa s2/m6]. */
  P_LENGTH: 5,
  /** Laminar f Re on D_h [-]. */
  P_F_RE: 6,
  /** Lobe the panel ends in, -1 before the first, and the panel's share that lies before that lobe. */
  P_LOBE: 7,
  P_BEFORE: 9,
  /** Arc length at the panel's end times nu [m3/s]: over the flow it is z+. */
  P_REACH: 8,
  /** Fields of a lobe: loss base and slope over f [Pa s2/m6], Reynolds number per flow [s/m3]. */
  LOBE_FIELDS: 3,
  L_BASE: 0,
  L_SLOPE: 1,
  L_REYNOLDS: 2,
  /** Fields of a shape. */
  SHAPE_FIELDS: 12,
  /** Creeping ends: pressure per flow [Pa s/m3]. */
  S_CREEP: 0,
  /** Exit energy and pockets: pressure per flow squared [Pa s2/m6]. */
  S_EXIT: 1,
  /** Inlet separation: pressure per flow squared [Pa s2/m6]. */
  S_INLET: 2,
  /** Widening without any recovery, and with that of turbulent flow [Pa s2/m6]. */
  S_WIDENING: 3,
  S_RECOVERED: 4,
  /** Mean Reynolds number per flow [s/m3]. */
  S_REYNOLDS: 5,
  /** Lobes in use. */
  S_LOBES: 6,
  /** Bulk velocity per flow at the inlet port and at the narrowest place [1/m2]. */
  S_PORT: 7,
  S_NARROWEST: 8,
  /** Mean roughness over D_h [-]. */
  S_ROUGHNESS: 9,
  /** Roughness term of Haaland for the whole shape [-]. */
  S_ROUGH: 10,
  /** Darcy factor of Haaland for the whole shape at Re 4000, which bends use below as well [-]. */
  S_SEPARATION: 11,
} as const;
