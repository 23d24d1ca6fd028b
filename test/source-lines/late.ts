/** Gone once it is compiled: the lines below stand elsewhere then. */
interface Gone {
  readonly what: string;
}

const late = ({ what }: Gone): never => {
  throw new Error(what);
};
late({ what: 'here' });
