/** The address of the built worker (vite.config.ts). */
declare module 'virtual:judge' {
  const address: string;
  export default address;
}
