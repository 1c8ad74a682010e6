/** What printing a plate takes: the one report that the fast estimate and the exact raster both fill. */

export interface PrintReport {
  /** estimate: closed forms at stations. raster: every layer drawn in pixels. */
  readonly form: 'estimate' | 'raster';
  readonly layers: number;
  /** Area of down-facing surface flatter than the overhang limit allows, the bed apart [mm2]. */
  readonly overhangArea_mm2: number;
  /** Longest ceiling line printed in the air, between two supported ends [mm]. */
  readonly bridge_mm: number;
  /** Pieces of a layer, at least one line square, that rest on nothing below. */
  readonly newIslands: number;
  /** Closed contours per layer, outer and inner, mean over the layers. */
  readonly contoursPerLayer: number;
  /** Layer area that neither the layer below nor a bridge carries [mm2]. */
  readonly supportArea_mm2: number;
  /** Area of the part on which that support would stand, the bed apart [mm2]. */
  readonly supportFooting_mm2: number;
  /** Void between that area and the next solid or the bed below [mm3]. */
  readonly supportVolume_mm3: number;
  /** Finest opening as printed: bore less shrinkage, or a pocket's mouth [mm]. */
  readonly finestFeature_mm: number;
  /** Smallest separate piece of any layer [mm2]; the estimate does not see it and says null. */
  readonly smallestIsland_mm2: number | null;
  /** Least share of solid over cut planes normal to x, y and z and along the rows [0..1]. */
  readonly weakestSection: number;
  readonly solidVolume_mm3: number;
  readonly mass_g: number;
  readonly travel_mm: number;
  readonly retractions: number;
  readonly printTime_h: number;
  /** Material and machine time of one part, in the brief's currency. */
  readonly cost: number;
  /** First layer: area on the bed [mm2] and its extent along x [mm]. */
  readonly bedArea_mm2: number;
  readonly bedLength_mm: number;
}

/** Per-layer figures of a raster, from the bed up. */
export interface LayerTable {
  readonly height_mm: Float64Array;
  readonly area_mm2: Float64Array;
  readonly contours: Int32Array;
  readonly islands: Int32Array;
  readonly newIslands: Int32Array;
  readonly unsupported_mm2: Float64Array;
  readonly support_mm2: Float64Array;
}
