/** `legA` -> `leg-a`. */
export const flagOf = (name: string): string =>
  name.replace(/[A-Z]/g, (capital) => `-${capital.toLowerCase()}`);

/** `leg-a` -> `legA`. */
export const camelCase = (key: string): string =>
  key.replace(/-([a-z])/g, (_, letter: string) => letter.toUpperCase());
