/** The page's own protocol. Not `file:`: this one has an origin, so that workers, rules and checks have something to hold. */
export const SCHEME = 'app';
export const PAGE_ORIGIN = 'app://rimward';
export const PAGE_ADDRESS = `${PAGE_ORIGIN}/`;

/** True for an address of our own page, however it was written; false for anything that is not a plain address. */
export function isOurPage(address: string): boolean {
  try {
    const { protocol, host, username, password } = new URL(address);
    return protocol === `${SCHEME}:` && host === 'rimward' && username === '' && password === '';
  } catch {
    return false;
  }
}
