export * from './portable.ts';
