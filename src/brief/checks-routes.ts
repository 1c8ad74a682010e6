/** Cross-checks of routes, process and search: what can be printed, and what fits in memory. */
import type { Check } from './check.ts';
import { fault, shownSum } from './faults.ts';
import type { Fault } from './faults.ts';
import { outlineBox } from './outline.ts';
import type { Brief } from './schema.ts';

/**
 * Most cells of the exact layer raster of one design, at half a line width and one layer: one bit
 * each is 0.5 GB. Own choice; a plate of 600 x 600 x 20 mm at 0.4 and 0.2 mm has 0.9e9.
 */
const RASTER_CELLS_MAX = 4e9;

/** Stations along a channel that the search looks at, and bytes that each takes (own estimate). */
const STATIONS = 32;
const STATION_BYTES = 40;
/** Most memory that the designs of a search may take by that estimate. Own choice. */
const SEARCH_BYTES_MAX = 2e9;

/** Estimated memory for the designs of a population and an archive, all channels different. */
function searchBytes(brief: Brief): number {
  const { population, archive } = brief.search;
  return (population + archive) * brief.routes.maxChannels * STATIONS * STATION_BYTES;
}

/** Cells of the exact layer raster of the thickest plate, printed flat. */
function rasterCells(brief: Brief): number {
  const [x0, y0, x1, y1] = outlineBox(brief.plate.outline);
  const range = brief.plate.thickness_mm;
  const thickness = typeof range === 'number' ? range : range.max_mm;
  const cell = brief.process.lineWidth_mm / 2;
  const layers = thickness / brief.process.layerHeight_mm;
  return ((x1 - x0) / cell) * ((y1 - y0) / cell) * layers;
}

const spans: Check = {
  reads: ['routes.bore_mm', 'routes.ligament_mm'],
  run: ({ routes }) =>
    (['bore_mm', 'ligament_mm'] as const).flatMap((name): Fault[] => {
      const { min, max } = routes[name];
      if (min <= max) return [];
      const allowed = `be at most routes.${name}.max, which is ${max}`;
      return [fault(`routes.${name}.min`, String(min), allowed, 'Swap the two.')];
    }),
};

const walls: Check = {
  reads: [
    'process.minimumWall_mm',
    'process.lineWidth_mm',
    'process.layerHeight_mm',
    'routes.bore_mm',
    'routes.ligament_mm',
  ],
  run: ({ process, routes }) => {
    const faults: Fault[] = [];
    const wall = process.minimumWall_mm;
    const line = process.lineWidth_mm;
    const widest = routes.ligament_mm.max;
    if (wall < line) {
      const allowed = `be at least process.lineWidth_mm, which is ${line}`;
      const remedy = `A wall is at least one printed line; two (${shownSum(2 * line)} mm) print soundly.`;
      faults.push(fault('process.minimumWall_mm', String(wall), allowed, remedy));
    }
    if (widest < wall) {
      const pitch = shownSum(routes.bore_mm.max + widest);
      const allowed = `be at least process.minimumWall_mm, which is ${wall}`;
      const remedy =
        `At the widest pitch of ${pitch} mm the walls between ports are still thinner than the ` +
        'process prints: widen the ligament or lower the minimum wall.';
      faults.push(fault('routes.ligament_mm.max', String(widest), allowed, remedy));
    }
    if (process.layerHeight_mm > line) {
      const allowed = `be at most process.lineWidth_mm, which is ${line}`;
      const remedy = 'A layer higher than its line is wide does not bond: use thinner layers.';
      faults.push(fault('process.layerHeight_mm', String(process.layerHeight_mm), allowed, remedy));
    }
    return faults;
  },
};

const features: Check = {
  reads: [
    'process.minimumFeature_mm',
    'process.lineWidth_mm',
    'process.holeShrinkage_mm',
    'routes.bore_mm',
  ],
  run: ({ process, routes }) => {
    const faults: Fault[] = [];
    const feature = process.minimumFeature_mm;
    const bore = routes.bore_mm.min;
    if (feature < process.lineWidth_mm) {
      const allowed = `be at least process.lineWidth_mm, which is ${process.lineWidth_mm}`;
      const remedy = 'A feature finer than one line is left out by the printer.';
      faults.push(fault('process.minimumFeature_mm', String(feature), allowed, remedy));
    }
    if (bore < feature) {
      const allowed = `be at least process.minimumFeature_mm, which is ${feature}`;
      const remedy = 'A finer bore does not print: use wider bores.';
      faults.push(fault('routes.bore_mm.min', String(bore), allowed, remedy));
    } else if (bore <= process.holeShrinkage_mm) {
      const allowed = `be greater than process.holeShrinkage_mm, which is ${process.holeShrinkage_mm}`;
      const remedy = 'A bore that shrinks by its whole width prints shut: use wider bores.';
      faults.push(fault('routes.bore_mm.min', String(bore), allowed, remedy));
    }
    return faults;
  },
};

const ribs: Check = {
  reads: ['routes.ribs', 'routes.longestSlat_mm', 'routes.sections', 'routes.bore_mm'],
  run: ({ routes }) => {
    const slat = routes.longestSlat_mm;
    if (slat === undefined) return [];
    if (routes.ribs === 'none') {
      const remedy = "Set routes.ribs to 'auto', or leave the longest slat out.";
      return [fault('routes.longestSlat_mm', String(slat), 'go with ribs', remedy)];
    }
    if (slat >= routes.bore_mm.min) return [];
    const allowed = `be at least routes.bore_mm.min, which is ${routes.bore_mm.min}`;
    const remedy = 'A slot is no shorter than wide: allow longer slats or finer bores.';
    return [fault('routes.longestSlat_mm', String(slat), allowed, remedy)];
  },
};

const memory: Check = {
  reads: ['search.population', 'search.archive', 'routes.maxChannels'],
  run: (brief) => {
    const bytes = searchBytes(brief);
    if (bytes <= SEARCH_BYTES_MAX) return [];
    const { population, archive } = brief.search;
    const found =
      `${population}, which with search.archive ${archive} and routes.maxChannels ` +
      `${brief.routes.maxChannels} takes an estimated ${shownSum(bytes / 1e9)} GB`;
    const allowed = `keep that within ${SEARCH_BYTES_MAX / 1e9} GB`;
    const remedy = 'Lower the population, the archive or the number of channels.';
    return [fault('search.population', found, allowed, remedy)];
  },
};

const raster: Check = {
  reads: ['plate.outline', 'plate.thickness_mm', 'process.lineWidth_mm', 'process.layerHeight_mm'],
  run: (brief) => {
    const cells = rasterCells(brief);
    if (cells <= RASTER_CELLS_MAX) return [];
    const { lineWidth_mm: line, layerHeight_mm: layer } = brief.process;
    const found =
      `${line}, which with process.layerHeight_mm ${layer} cuts this plate into ` +
      `${shownSum(cells)} cells of half a line by one layer`;
    const remedy = 'Use wider lines, higher layers or a smaller plate.';
    const allowed = `keep that within ${RASTER_CELLS_MAX}`;
    return [fault('process.lineWidth_mm', found, allowed, remedy)];
  },
};

export const ROUTE_CHECKS: readonly Check[] = [spans, walls, features, ribs, memory, raster];
