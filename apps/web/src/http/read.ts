/** Reading of answers whose shape the service vouches for: what is not there is read as nothing, never as a fault. */
export const memberOf = (value: unknown, name: string): unknown =>
  typeof value === 'object' && value !== null ? Reflect.get(value, name) : undefined;

export const textOf = (value: unknown, name: string): string | null => {
  const member = memberOf(value, name);
  return typeof member === 'string' ? member : null;
};

export const numberOf = (value: unknown, name: string): number | null => {
  const member = memberOf(value, name);
  return typeof member === 'number' ? member : null;
};

export const listOf = (value: unknown, name: string): readonly unknown[] => {
  const member = memberOf(value, name);
  return Array.isArray(member) ? member : [];
};

export const textsOf = (value: unknown, name: string): readonly string[] =>
  listOf(value, name).filter((each) => typeof each === 'string');
