export { meshVolume, signedSliceAreas } from './mesh.ts';
export type { Mesh } from './mesh.ts';
export { stitchShell } from './shell.ts';
export type { Shell } from './shell.ts';
export { withSolids } from './kernel.ts';
export type { KernelOptions, SolidFacts, Solids } from './kernel.ts';
