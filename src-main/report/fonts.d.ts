declare module '*.woff2?inline' {
  /** The font as a data address. */
  const address: string;
  export default address;
}
