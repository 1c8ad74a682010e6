export { channelDuct } from './channel-duct.ts';
export type { Duct } from './duct.ts';
export { fieldFile, sliceFile } from './field.ts';
export { LEAST_CELLS, VALID_REYNOLDS, verifyBytes, verifyDuct } from './verify.ts';
export type { DuctVerified, GridResult, VerifyOptions, VerifyProgress } from './verify.ts';
