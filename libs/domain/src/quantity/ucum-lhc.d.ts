/** The part of the reference UCUM library that the tests compare with; the package brings no types. */
declare module '@lhncbc/ucum-lhc' {
  export const UcumLhcUtils: {
    getInstance(): {
      convertUnitTo(
        from: string,
        value: number,
        to: string,
      ): { readonly status: string; readonly toVal: number | null; readonly msg: readonly string[] };
      getSpecifiedUnit(code: string, valid: 'validate'): { readonly unit: { readonly isMetric_: boolean } | null };
    };
  };
}
