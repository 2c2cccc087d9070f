/**
 * The same as in package.json, which a test holds it to: reading that file would cost every start.
 */
export const VERSION = '0.1.0';
