// What the tests use of two libraries that come without types.

declare module '@lhncbc/ucum-lhc' {
  interface Conversion {
    readonly status: 'succeeded' | 'failed' | 'error';
    readonly toVal: number | null;
  }
  interface Validation {
    readonly status: 'valid' | 'invalid' | 'error';
    readonly unit: { readonly name: string } | null;
  }
  interface Utils {
    convertUnitTo(from: string, value: number, to: string): Conversion;
    validateUnitString(code: string): Validation;
  }
  const library: { readonly UcumLhcUtils: { getInstance(): Utils } };
  export default library;
}

declare module 'psychrolib' {
  const library: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    GetSatVapPres(celsius: number): number;
    GetTDewPointFromRelHum(celsius: number, humidity: number): number;
    GetStandardAtmPressure(metres: number): number;
  };
  export default library;
}
