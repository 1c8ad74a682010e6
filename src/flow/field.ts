/** The velocity field of a solved channel, as files: VTK ImageData and a slice as SVG. */
import type { Solved } from './solve.ts';
import { cellVelocity } from './solve.ts';

/** Cells along a side that go into one point of the file. */
const COARSER = 2;

/**
 * The mean velocity field, every second cell each way, as VTK ImageData in text (.vti): vectors
 * [m/s], and 1 where there is air. Solid points hold 0.
 *
 * Format: VTK XML ImageData 0.1, format "ascii" (VTK File Formats, Kitware).
 *
 * @param velocity_m_per_s mean velocity in the bore.
 * @param speed the same in cells per step.
 */
export function fieldFile(solved: Solved, velocity_m_per_s: number, speed: number): string {
  const { grid, scene, kernel } = solved;
  const f = kernel.populations();
  const scale = velocity_m_per_s / speed;
  const counts = [grid.nx, grid.ny, grid.nz].map((n) => Math.ceil(n / COARSER));
  const vectors: string[] = [];
  const air: string[] = [];
  const u = new Float64Array(3);
  for (let k = 0; k < counts[2]; k++) {
    for (let j = 0; j < counts[1]; j++) {
      for (let i = 0; i < counts[0]; i++) {
        const at = [i, j, k].map((n) => COARSER * n);
        const isAir = grid.isFluid(at[0], at[1], at[2]);
        if (isAir) cellVelocity(f, grid, grid.address(at[0], at[1], at[2]), u);
        else u.fill(0);
        vectors.push(Array.from(u, (value) => Number((value * scale).toPrecision(4))).join(' '));
        air.push(isAir ? '1' : '0');
      }
    }
  }
  const extent = counts.map((n) => `0 ${n - 1}`).join(' ');
  const spacing = COARSER * scene.cell_mm;
  return `<?xml version="1.0"?>
<VTKFile type="ImageData" version="0.1" byte_order="LittleEndian">
<ImageData WholeExtent="${extent}" Origin="${scene.origin_mm.join(' ')}" Spacing="${spacing} ${spacing} ${spacing}">
<Piece Extent="${extent}">
<PointData Vectors="velocity_m_per_s" Scalars="air">
<DataArray type="Float32" Name="velocity_m_per_s" NumberOfComponents="3" format="ascii">
${vectors.join('\n')}
</DataArray>
<DataArray type="UInt8" Name="air" format="ascii">
${air.join(' ')}
</DataArray>
</PointData>
</Piece>
</ImageData>
</VTKFile>
`;
}

/** Side of a cell in the picture. */
const PIXEL = 6;
/** Speed over the bore's mean that is shown as darkest. */
const FULL = 2;

/**
 * Speed in the plane y = the inlet's middle as SVG, air running to the right; darker is faster, red is
 * air that runs back against the stream.
 */
export function sliceFile(solved: Solved, velocity_m_per_s: number, speed: number): string {
  const { grid, scene, kernel } = solved;
  const f = kernel.populations();
  const u = new Float64Array(3);
  const box = scene.box(0);
  const y = box === null ? grid.ny >> 1 : (box.y0 + box.y1 + 1) >> 1;
  const parts: string[] = [];
  for (let x = 0; x < grid.nx; x++) {
    for (let z = 0; z < grid.nz; z++) {
      if (!grid.isFluid(x, y, z)) continue;
      cellVelocity(f, grid, grid.address(x, y, z), u);
      const share = Math.sqrt(u[0] * u[0] + u[1] * u[1] + u[2] * u[2]) / speed / FULL;
      const light = Math.round(235 - 200 * Math.min(1, share));
      const colour =
        u[2] < 0 ? `rgb(230,${light - 30},${light - 30})` : `rgb(${light},${light},235)`;
      parts.push(
        `<rect x="${z * PIXEL}" y="${x * PIXEL}" width="${PIXEL}" height="${PIXEL}" fill="${colour}"/>`,
      );
    }
  }
  const width = grid.nz * PIXEL;
  const height = grid.nx * PIXEL;
  const words = [
    `Speed in the plane through the inlet's middle; mean in the bore ${velocity_m_per_s.toPrecision(3)} m/s.`,
    `Darkest at ${FULL} times that; red runs back.`,
  ];
  const lines = words.map(
    (line, n) =>
      `<text x="4" y="${height + 17 + 16 * n}" font-family="sans-serif" font-size="12">${line}</text>`,
  );
  return `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 ${width} ${height + 40}" width="${width}" height="${height + 40}">
<title>${words.join(' ')}</title>
<rect width="${width}" height="${height}" fill="#888"/>
${parts.join('\n')}
${lines.join('\n')}
</svg>
`;
}
