/** Version of anfract, written into every file it makes; a test holds it to package.json. */
export const VERSION = '0.1.0';
