/**
 * The version in package.json. A test keeps the two equal, because reading that file would slow
 * every start.
 */
export const VERSION = '0.1.0';
