export { BRIEF_FORMAT, BRIEF_VERSION, briefSchema } from './schema.ts';
export type { Brief, BriefInput, Outline, Process, Limit } from './schema.ts';
