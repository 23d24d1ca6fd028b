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
export const lengths = [
  ['[ft_i]', 'ft'],
  ['m', 'm'],
] as const;
export const flows = [
  ['[gal_us]/min', 'gal/min'],
  ['L/min', 'L/min'],
] as const;
export const speeds = [
  ['[mi_i]/h', 'mph'],
  ['km/h', 'km/h'],
] as const;
export const durations = [['h', 'h']] as const;
export const temperatures = [
  ['[degF]', '°F'],
  ['Cel', '°C'],
] as const;
/** What meters and kits show. */
export const readings = [
  ['mg/L', 'mg/L'],
  ['%', '%'],
  ...temperatures,
  ['[pH]', 'pH'],
  ['uS/cm', 'µS/cm'],
  ['kg', 'kg'],
  ['[lb_av]', 'lb'],
  ['L', 'L'],
  ['[gal_us]', 'gal'],
] as const;
/** What laboratories count. */
export const organisms = [
  ['{CFU}/(100.mL)', 'CFU/100 mL'],
  ['{MPN}/(100.mL)', 'MPN/100 mL'],
] as const;
