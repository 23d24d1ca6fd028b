// What the switched sources call at each place that can be changed. One mutant is on at a time, or none.

/** The operators by name, the lazy ones with a right side that is called. */
const does = {
  '<': (a, b) => a < b,
  '<=': (a, b) => a <= b,
  '>': (a, b) => a > b,
  '>=': (a, b) => a >= b,
  '===': (a, b) => a === b,
  '!==': (a, b) => a !== b,
  '+': (a, b) => a + b,
  '-': (a, b) => a - b,
  '*': (a, b) => a * b,
  '/': (a, b) => a / b,
  '&&': (a, b) => a && b(),
  '||': (a, b) => a || b(),
};
/** What stands in place of an operator: neighbours that a test of the boundary tells apart. */
export const instead = {
  '<': ['<=', '>'],
  '<=': ['<', '>'],
  '>': ['>=', '<'],
  '>=': ['>', '<'],
  '===': ['!=='],
  '!==': ['==='],
  '+': ['-'],
  '-': ['+'],
  '*': ['/'],
  '/': ['*'],
  '&&': ['||'],
  '||': ['&&'],
};

export const switches = {
  /** The number of the mutant that is on; 0 for none. */
  on: 0,
  /** Where this is a set, the first mutant of each place that is come past is put into it. */
  passed: null,

  /** Which of the mutants of a place is on; less than 0 for none. */
  place(id, count) {
    if (this.passed !== null) this.passed.add(id);
    const which = this.on - id;
    return which < count ? which : -1;
  },
  either(id, operator, left, right) {
    const others = instead[operator];
    const which = this.place(id, others.length);
    return does[which < 0 ? operator : others[which]](left, right);
  },
  condition(id, asked) {
    const which = this.place(id, 2);
    return which < 0 ? asked() : which === 0;
  },
  decided(id, value) {
    const which = this.place(id, 2);
    return which < 0 ? value : which === 0;
  },
  other(id, was, another) {
    return this.place(id, 1) < 0 ? was : another;
  },
  not(id, value) {
    return this.place(id, 1) < 0 ? !value : value;
  },
};
globalThis.$mutants = switches;
