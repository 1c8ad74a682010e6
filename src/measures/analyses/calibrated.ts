/** Pressure drop of a channel with the factors that a printed coupon taught. */
import type { Calibration } from '../../brief/index.ts';
import { channelPressure } from '../../physics/index.ts';
import type { BranchPressure, ChannelDigests, LossParts } from '../../physics/index.ts';

export function emptyParts(): LossParts {
  return { friction_Pa: 0, ends_Pa: 0, curvature_Pa: 0, areaChanges_Pa: 0 };
}

/**
 * Pressure drop of each channel: the estimate, or the sum of its parts times their factors. The slope
 * is scaled along, which is exact where one part rules and steers well enough elsewhere.
 */
export function calibratedPressure(
  digests: ChannelDigests,
  calibration: Calibration | undefined,
): BranchPressure {
  if (calibration === undefined) {
    return (branch, flow, out) => channelPressure(digests, branch, flow, out);
  }
  const parts = emptyParts();
  return (branch, flow, out) => {
    channelPressure(digests, branch, flow, out, parts);
    scaleParts(parts, calibration);
    const sum = parts.friction_Pa + parts.ends_Pa + parts.curvature_Pa + parts.areaChanges_Pa;
    out[1] *= sum / out[0];
    out[0] = sum;
  };
}

export function scaleParts(parts: LossParts, calibration: Calibration): void {
  parts.friction_Pa *= calibration.friction.value;
  parts.ends_Pa *= calibration.ends.value;
  parts.curvature_Pa *= calibration.curvature.value;
  parts.areaChanges_Pa *= calibration.areaChanges.value;
}
