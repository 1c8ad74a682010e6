/** First values of what the form adds: sizes of an ordinary plate instead of the least allowed ones. */
import { pathText, isRecord } from './schema.ts';
import type { Node, Path } from './schema.ts';

/** By the place, the kind in brackets where a choice has kinds. Invented, to be written over. */
const FIRST: Readonly<Record<string, unknown>> = {
  'plate.outline(round)': { kind: 'round', diameter_mm: 84 },
  'plate.outline(rectangle)': {
    kind: 'rectangle',
    width_mm: 84,
    height_mm: 84,
    cornerRadius_mm: 5,
  },
  'plate.outline(polygon)': {
    kind: 'polygon',
    points_mm: [
      [-42, -42],
      [42, -42],
      [42, 42],
      [-42, 42],
    ],
  },
  'plate.thickness_mm(range)': { min_mm: 8, max_mm: 20 },
  'plate.thickness_mm(value)': 12,
  'plate.mounting(frame)': { kind: 'frame', frame_mm: 80 },
  'plate.mounting(holes)': { kind: 'holes', holes: [{ x_mm: 0, y_mm: 0, diameter_mm: 4 }] },
  'plate.mounting.holes': [{ x_mm: 0, y_mm: 0, diameter_mm: 4 }],
  'air.supply(flow)': { kind: 'flow', flow_m3_per_h: 20 },
  'air.supply(fan)': {
    kind: 'fan',
    curve: [
      { flow_m3_per_h: 0, pressure_Pa: 40 },
      { flow_m3_per_h: 25, pressure_Pa: 28 },
      { flow_m3_per_h: 50, pressure_Pa: 0 },
    ],
  },
  'air.supply.swept': { diameter_mm: 76, hub_mm: 32 },
  'air.supply.designFlow_m3_per_h': 20,
  'dust.classes': [{ diameter_um: 10, massShare: 1 }],
  'dust.load_mg_per_m3': 1,
  'dust.down(direction)': [0, 0, 1],
  heat: { source: { kind: 'load', heat_W: 20 }, material: 'petg' },
  'heat.source(load)': { kind: 'load', heat_W: 20 },
  'heat.source(face)': { kind: 'face', temperature_C: 60 },
  'heat.material': 'petg',
  'heat.conductivity_W_per_mK': 0.2,
  'heat.serviceTemperature_C': 70,
  calibration: {
    source: 'which coupon, which bench, when',
    friction: { value: 1, low: 0.9, high: 1.1 },
    ends: { value: 1, low: 0.9, high: 1.1 },
    curvature: { value: 1, low: 0.9, high: 1.1 },
    areaChanges: { value: 1, low: 0.9, high: 1.1 },
  },
  'routes.longestSlat_mm': 60,
  'search.timeLimit_s': 3600,
};

/** What a place begins with when it is switched on or its kind is chosen. */
export function beginWith(node: Node, path: Path): unknown {
  const place = pathText(path);
  const kind = node.properties?.['kind']?.const;
  const form =
    typeof kind === 'string'
      ? kind
      : node.type === 'object'
        ? 'range'
        : node.type === 'array'
          ? 'direction'
          : 'value';
  return FIRST[`${place}(${form})`] ?? FIRST[place] ?? firstValue(node);
}

/** What a list goes on with: never the last entry over again where that would be a fault. */
export function nextEntry(node: Node, path: Path, entries: readonly unknown[]): unknown {
  const items = node.items ?? {};
  const last = entries.at(-1);
  if (items.enum !== undefined) {
    return items.enum.find((option) => !entries.includes(option)) ?? items.enum[0];
  }
  if (last === undefined) {
    const first = FIRST[pathText(path)];
    return Array.isArray(first) ? first[0] : firstValue(items);
  }
  if (isRecord(last) && typeof last['flow_m3_per_h'] === 'number') {
    const before = entries.at(-2);
    const flow = isRecord(before) ? before['flow_m3_per_h'] : 0;
    const step = typeof flow === 'number' ? last['flow_m3_per_h'] - flow : 0;
    return { ...last, flow_m3_per_h: Number((last['flow_m3_per_h'] + (step || 5)).toFixed(3)) };
  }
  const options = items.properties?.['measure']?.enum;
  if (options !== undefined) {
    const used = new Set(entries.map((entry) => (isRecord(entry) ? entry['measure'] : undefined)));
    return { measure: options.find((option) => !used.has(option)) ?? options[0] };
  }
  return last;
}

/** A first value by the schema alone: default, constant, or the least that is allowed. */
function firstValue(node: Node): unknown {
  if (node.const !== undefined) return node.const;
  if (node.default !== undefined) return node.default;
  const branches = node.oneOf ?? node.anyOf;
  if (branches !== undefined) return firstValue(branches[0]);
  if (node.enum !== undefined) return node.enum[0];
  switch (node.type) {
    case 'object': {
      const required = node.required ?? [];
      return Object.fromEntries(
        Object.entries(node.properties ?? {})
          .filter(([key]) => required.includes(key))
          .map(([key, child]) => [key, firstValue(child)]),
      );
    }
    case 'array':
      if (node.prefixItems !== undefined) return node.prefixItems.map(firstValue);
      return Array.from({ length: node.minItems ?? 0 }, () => firstValue(node.items ?? {}));
    case 'number':
    case 'integer':
      return node.minimum ?? (node.exclusiveMinimum === undefined ? 0 : node.exclusiveMinimum + 1);
    case 'boolean':
      return false;
    default:
      return '';
  }
}
