/** Where the numbers of a channel digest lie: one row per shape, per panel and per lobe. */

/** Stations per panel: what a panel holds is averaged once, then read at every flow tried. */
export const STATIONS_PER_PANEL = 4;
/** Bends kept apart per shape; further ones share the last place. */
export const MAX_LOBES = 6;

/** Fields of a panel. */
export const PANEL_FIELDS = 10;
/** Reynolds number per flow [s/m3]. */
export const P_REYNOLDS = 0;
/** Mean of 4 sqrt(A)/D_h rho/(2 A^2): laminar loss per flow squared and unit of apparentSum [Pa s2/m6]. */
export const P_ENTRY = 1;
/** Developed Fanning friction times Re on sqrt(A) [-]. */
export const P_DEVELOPED = 2;
/** sqrt(D_h/(2R)) with the relaxed curvature [-]; times Re the Dean number. */
export const P_BEND = 3;
/** (eps/(3.7 D_h))^1.11, the roughness term of Haaland [-]. */
export const P_ROUGH = 4;
/** Length over D_h times rho/(2 A^2): turbulent loss per Darcy factor and flow squared [Pa s2/m6]. */
export const P_LENGTH = 5;
/** Laminar f Re on D_h [-]. */
export const P_F_RE = 6;
/** Lobe the panel ends in, -1 before the first, and the panel's share that lies before that lobe. */
export const P_LOBE = 7;
export const P_BEFORE = 9;
/** Arc length at the panel's end times nu [m3/s]: over the flow it is z+. */
export const P_REACH = 8;

/** Fields of a lobe: loss base and slope over f [Pa s2/m6], Reynolds number per flow [s/m3]. */
export const LOBE_FIELDS = 3;
export const L_BASE = 0;
export const L_SLOPE = 1;
export const L_REYNOLDS = 2;

/** Fields of a shape. */
export const SHAPE_FIELDS = 12;
/** Creeping ends: pressure per flow [Pa s/m3]. */
export const S_CREEP = 0;
/** Exit energy and pockets: pressure per flow squared [Pa s2/m6]. */
export const S_EXIT = 1;
/** Inlet separation: pressure per flow squared [Pa s2/m6]. */
export const S_INLET = 2;
/** Widening without any recovery, and with that of turbulent flow [Pa s2/m6]. */
export const S_WIDENING = 3;
export const S_RECOVERED = 4;
/** Mean Reynolds number per flow [s/m3]. */
export const S_REYNOLDS = 5;
/** Lobes in use. */
export const S_LOBES = 6;
/** Bulk velocity per flow at the inlet port and at the narrowest place [1/m2]. */
export const S_PORT = 7;
export const S_NARROWEST = 8;
/** Mean roughness over D_h [-]. */
export const S_ROUGHNESS = 9;
/** Roughness term of Haaland for the whole shape [-]. */
export const S_ROUGH = 10;
/** Darcy factor of Haaland for the whole shape at Re 4000, which bends use below as well [-]. */
export const S_SEPARATION = 11;
