export * from './describe.ts';
export * from './kept.ts';
export * from './moments.ts';
export * from './names.ts';
export * from './numbers.ts';
export * from './quantities.ts';
export * from './telling.ts';
export * from './verdict-lines.ts';
