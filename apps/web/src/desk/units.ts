/** UCUM codes to choose from, and how people read them: the same in both languages. */
export const volumes = [
  ['[gal_us]', 'gal'],
  ['L', 'L'],
  ['m3', 'm³'],
] as const;
export const massesAndVolumes = [
  ['[lb_av]', 'lb'],
  ['kg', 'kg'],
  ['[oz_av]', 'oz'],
  ['g', 'g'],
  ...volumes,
  ['[cyd_i]', 'yd³'],
] as const;
export const areas = [
  ['[acr_us]', 'ac'],
  ['har', 'ha'],
  ['[sft_i]', 'ft²'],
  ['m2', 'm²'],
] as const;
export const volumesPerArea = [
  ['[gal_us]/[acr_us]', 'gal/ac'],
  ['L/har', 'L/ha'],
] as const;
