/** The starting brief that a new user edits. */

/**
 * A commented starting brief: JSON whose keys beginning with "//" are comments. It is a whole and
 * valid brief; the plate, the fan and its curve are invented.
 *
 * @returns text of the file, with a final line break.
 */
export function briefTemplate(): string {
  return TEMPLATE;
}

const TEMPLATE = `{
  "//": "A brief says what plate is wanted. Keys that begin with // are comments. Units stand in the keys.",
  "// example": "INVENTED example: this fan and its curve belong to no product. Replace every number by yours.",
  "// defaults": "Only plate.outline, plate.thickness_mm and air.supply must be given; all else may be left out.",
  "format": "anfract-brief",
  "version": 1,
  "name": "starting brief",

  "plate": {
    "// outline": "Outer edge. round: diameter_mm. rectangle: width_mm, height_mm, cornerRadius_mm. polygon: points_mm, a list of [x, y]. The plate centre is 0, 0.",
    "outline": { "kind": "rectangle", "width_mm": 80, "height_mm": 80, "cornerRadius_mm": 4 },
    "// thickness_mm": "Along the air stream: one number, or { \\"min_mm\\": 12, \\"max_mm\\": 20 } to leave it to the search.",
    "thickness_mm": { "min_mm": 12, "max_mm": 20 },
    "// rim_mm": "Solid border without channels.",
    "rim_mm": 3,
    "// mounting": "none; frame: a square fan frame of 40, 50, 60, 70, 80, 92, 120 or 140 mm; or holes: a list of { x_mm, y_mm, diameter_mm }.",
    "mounting": { "kind": "frame", "frame_mm": 80 },
    "// build": "How it is printed. flat: inlet face on the bed. edge: standing on its lower edge. any: the search decides.",
    "build": "flat"
  },

  "air": {
    "// route": "through: air enters at one face and leaves at the other. side: it leaves through the rim: { \\"kind\\": \\"side\\", \\"sectors\\": [{ \\"from_deg\\": 0, \\"to_deg\\": 360 }], \\"direction\\": \\"outward\\" or \\"inward\\", \\"merge\\": \\"none\\", \\"plenum\\" or \\"any\\" }.",
    "route": { "kind": "through" },
    "temperature_C": 25,
    "// altitude_m": "Height above sea level; thinner air is easier to move and carries less heat.",
    "altitude_m": 0,
    "// supply": "What drives the air. fan: its curve, flow rising. For a known flow use { \\"kind\\": \\"flow\\", \\"flow_m3_per_h\\": 20 }.",
    "supply": {
      "kind": "fan",
      "// curve": "Static pressure over flow, as on the fan's data sheet. A dip in the middle (stall) is allowed.",
      "curve": [
        { "flow_m3_per_h": 0, "pressure_Pa": 40 },
        { "flow_m3_per_h": 14.4, "pressure_Pa": 30 },
        { "flow_m3_per_h": 28.8, "pressure_Pa": 23 },
        { "flow_m3_per_h": 43.2, "pressure_Pa": 7 },
        { "flow_m3_per_h": 48.6, "pressure_Pa": 0 }
      ],
      "// speedShare": "Speed over the speed of the curve: 0.8 gives 0.8 of the flow and 0.64 of the pressure.",
      "speedShare": 1,
      "// swept": "Ring that the blades sweep; ports under the hub or in the corners see little flow. May be left out.",
      "swept": { "diameter_mm": 76, "hub_mm": 32 },
      "// designFlow_m3_per_h": "Flow at which the pressure drop is quoted. Left out: 60 % of the free flow.",
      "designFlow_m3_per_h": 20
    },
    "// reverseShare": "Flow of a cleaning purge in reverse, as a share of the design flow.",
    "reverseShare": 0.4
  },

  "safety": {
    "// bladeDistance_mm": "Clear distance from the plate to the blades. Fingers reach through wide openings: local safety rules and a qualified person decide, not this number.",
    "bladeDistance_mm": 10,
    "// reach": "Who can touch the plate: fromAge14, or fromAge3 in homes and schools.",
    "reach": "fromAge14"
  },

  "dust": {
    "// density_kg_per_m3": "Of one grain: mineral dust about 2650, flour about 1450.",
    "density_kg_per_m3": 1450,
    "// classes": "Shares of the mass by grain size, adding up to 1. Left out: a fine test dust.",
    "classes": [
      { "diameter_um": 10, "massShare": 0.2 },
      { "diameter_um": 30, "massShare": 0.3 },
      { "diameter_um": 80, "massShare": 0.5 }
    ],
    "// load_mg_per_m3": "Dust in the incoming air may be added, \\"load_mg_per_m3\\": 5 (a dusty room about 1, a mill around 10): pocketFillTime_h then works.",
    "// down": "Which way is down may be added, so that gravity counts: \\"down\\": \\"alongAir\\", \\"againstAir\\", \\"minusY\\" or a vector [x, y, z]. Left out: gravity does not count."
  },

  "// calibration": "What a printed coupon taught. \`anfract coupon\` cuts one, \`anfract calibrate ... --into\` this file writes the section; left out: losses as estimated. A section correction holds what computed flows taught in the same way.",

  "// heat": "A hot body on one face may be added, \\"heat\\": { \\"source\\": { \\"kind\\": \\"load\\", \\"heat_W\\": 10 }, \\"material\\": \\"aluminium\\" }: thermalResistance_K_per_W and its kin then work.",
  "// heat, more": "Its source may be { \\"kind\\": \\"face\\", \\"temperature_C\\": 60 }; hotFace: inlet or outlet; conductivity_W_per_mK and serviceTemperature_C go before those of the material; contactResistance_mm2K_per_W of the joint.",

  "// sound": "A section may be added, \\"sound\\": { \\"bands_Hz\\": [500, 1000, 2000, 4000], \\"noiseExponent\\": 6 }; {} takes these: soundLoss_dB and flowNoiseIndex_dB.",
  "// light": "A section may be added, \\"light\\": { \\"wallReflectance\\": 0.05, \\"gloss\\": 0 }; {} takes these: diffuseLight.",
  "// strength": "A push on the middle of the plate may be added, \\"strength\\": { \\"push_N\\": 100, \\"padRadius_mm\\": 10, \\"support\\": \\"simple\\" }: pushDeflection_mm, pushStressShare and tearShare then work.",
  "// strength, more": "support: simple or clamped; of the print modulus_GPa, strength_MPa, acrossLayers (strength across layers over that within one); safetyFactor; lasting, where the push stays on.",

  "process": {
    "// lineWidth_mm": "Width of a printed line, about the nozzle's bore.",
    "lineWidth_mm": 0.4,
    "layerHeight_mm": 0.2,
    "// overhangLimit_deg": "Steepest surface printed without support, from the vertical.",
    "overhangLimit_deg": 45,
    "// bridgeLimit_mm": "Longest ceiling printed in the air.",
    "bridgeLimit_mm": 10,
    "// minimumWall_mm": "Thinnest sound wall: two lines. Every design keeps it.",
    "minimumWall_mm": 0.8,
    "// minimumFeature_mm": "Finest opening or rib that prints.",
    "minimumFeature_mm": 0.8,
    "// holeShrinkage_mm": "How much smaller than drawn a printed bore comes out.",
    "holeShrinkage_mm": 0.2,
    "printSpeed_mm_per_s": 60,
    "travelSpeed_mm_per_s": 150,
    "// volumeRate_mm3_per_s": "Most that the nozzle melts.",
    "volumeRate_mm3_per_s": 12,
    "retraction_s": 0.3,
    "layerChange_s": 2,
    "// minimumLayer_s": "Least time per layer, so that it can cool.",
    "minimumLayer_s": 6,
    "// prices": "Invented prices.",
    "materialDensity_kg_per_m3": 1240,
    "materialPrice_per_kg": 25,
    "machineRate_per_h": 3,
    "currency": "EUR"
  },

  "// batch": "Printing many: parts wanted, bed, hands-on time, prices; also bedZ_mm, gap_mm between parts, scrapShare, machines. May be left out. Invented prices.",
  "batch": { "parts": 100, "bedX_mm": 220, "bedY_mm": 220, "setup_h": 0.25, "handling_h": 0.05, "labourRate_per_h": 30 },

  "goals": {
    "// objectives": "Measures to improve; the front shows the best compromises between them.",
    "objectives": ["pressureDrop_Pa", "dustCapture", "partCost"],
    "// limits": "Bounds to keep, as { measure, atMost } or { measure, atLeast }. Channels that overlap and walls thinner than process.minimumWall_mm are always refused.",
    "limits": [{ "measure": "pressureDrop_Pa", "atMost": 25 }]
  },

  "routes": {
    "// choices": "What the search may try. Shorten a list to rule something out.",
    "lattices": ["square", "hexagonal", "rings"],
    "sections": ["round", "teardrop", "slot", "polygon"],
    "motifs": ["alike", "mirrored", "turned", "stepped", "free"],
    "// bore_mm": "Inscribed diameter of a channel.",
    "bore_mm": { "min": 2, "max": 8 },
    "// ligament_mm": "Solid between neighbouring ports; bore and ligament together are the pitch.",
    "ligament_mm": { "min": 0.8, "max": 8 },
    "// pockets": "Side pockets that hold dust at the outer side of bends.",
    "pockets": true,
    "// pocketLips, pocketTurns": "\\"pocketLips\\": true lets pockets have a lip at the downstream edge of their mouth, \\"pocketTurns\\": true lets them stand elsewhere than on the outer side of bends. Left out: neither. \\"sidePockets\\": true allows pockets with exits in the rim too.",
    "// teeth": "\\"teeth\\": true lets channels have saw teeth on their walls that stir the air. Left out: smooth walls.",
    "// ribs": "auto: ribs break slots whose ceiling would bridge too far, or that are longer than \\"longestSlat_mm\\", which may be added. none: slots stay whole.",
    "ribs": "none",
    "maxChannels": 300
  },

  "search": {
    "population": 96,
    "generations": 200,
    "// seed": "Any text. The same brief and seed give the same front.",
    "seed": "anfract",
    "// stallGenerations": "Stop after so many generations without progress; 0: never. timeLimit_s may be added to stop by the clock.",
    "stallGenerations": 60,
    "archive": 200
  }
}
`;
