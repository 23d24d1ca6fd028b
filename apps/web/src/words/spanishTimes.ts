/** A clock time takes its article, a day its own: `las 06:10`, `la 01:10`, `el sáb, 28 de nov 06:10`. */
export const article = (at: string): string =>
  !/^\d/.test(at) ? `el ${at}` : /^01:/.test(at) ? `la ${at}` : `las ${at}`;

/** When: `a las 06:10`, `el sáb, 28 de nov 06:10`. */
export const atTime = (at: string): string => (/^\d/.test(at) ? `a ${article(at)}` : article(at));

/** Of when: `de las 06:10`, `del sáb, 28 de nov 06:10`. */
export const ofTime = (at: string): string => (/^\d/.test(at) ? `de ${article(at)}` : `del ${at}`);
