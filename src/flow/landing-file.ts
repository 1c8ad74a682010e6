/** Where dust landed, as a file of points. */
import type { DustTracked } from './dust-tracking.ts';

const short = (value: number): number => Number(value.toPrecision(5));
const array = (type: string, name: string, text: string, parts = ''): string =>
  `<DataArray type="${type}" Name="${name}"${parts} format="ascii">\n${text}\n</DataArray>`;

/**
 * The landings as VTK PolyData in text (.vtp): a point for each grain, in mm in the axes of the flow
 * field beside it, with its diameter [um], the pocket it lies in (counted from 0, -1 for bare wall),
 * the speed at which it met the wall [m/s] and its mass as a share of all dust that came in.
 *
 * Format: VTK XML PolyData 0.1, format "ascii" (VTK File Formats, Kitware).
 */
export function landingFile({ landings, classes }: DustTracked): string {
  const { count, place_mm, pocket, sizeClass, speed_m_per_s } = landings;
  const rows = (of: (n: number) => number | string): string =>
    Array.from({ length: count }, (_, n) => String(of(n))).join('\n');
  return `<?xml version="1.0"?>
<VTKFile type="PolyData" version="0.1" byte_order="LittleEndian">
<PolyData>
<Piece NumberOfPoints="${count}" NumberOfVerts="${count}" NumberOfLines="0" NumberOfStrips="0" NumberOfPolys="0">
<PointData Scalars="diameter_um">
${array(
  'Float32',
  'diameter_um',
  rows((n) => short(classes[sizeClass[n]].diameter_um)),
)}
${array(
  'Int16',
  'pocket',
  rows((n) => pocket[n]),
)}
${array(
  'Float32',
  'speed_m_per_s',
  rows((n) => short(speed_m_per_s[n])),
)}
${array(
  'Float32',
  'massShare',
  rows((n) => short(classes[sizeClass[n]].massShare / classes[sizeClass[n]].entered)),
)}
</PointData>
<Points>
${array(
  'Float32',
  'place_mm',
  rows((n) => [0, 1, 2].map((d) => short(place_mm[3 * n + d])).join(' ')),
  ' NumberOfComponents="3"',
)}
</Points>
<Verts>
${array(
  'Int32',
  'connectivity',
  rows((n) => n),
)}
${array(
  'Int32',
  'offsets',
  rows((n) => n + 1),
)}
</Verts>
</Piece>
</PolyData>
</VTKFile>
`;
}
