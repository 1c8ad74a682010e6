/** Version of anfract, written into every file it makes; a test holds it to package.json. */
export const VERSION = '0.1.0';

/** Versions of the parts a result depends on, for the run's record; held to the lock file by a test. */
export const PARTS: Readonly<Record<string, string>> = {
  'manifold-3d': '3.5.4',
  seedrandom: '3.0.5',
};
