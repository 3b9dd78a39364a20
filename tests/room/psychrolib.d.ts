declare module 'psychrolib' {
  /** Functions of humid air by the ASHRAE Handbook, Fundamentals (2017), as far as the tests use them. */
  const psychrolib: {
    readonly SI: number;
    SetUnitSystem(system: number): void;
    /** Pa from °C; over ice below 0.01 °C. */
    GetSatVapPres(celsius: number): number;
    /** kg of water to the kg of dry air, from °C, a share from 0 to 1, and Pa. */
    GetHumRatioFromRelHum(celsius: number, humidity: number, pascals: number): number;
    /** J to the kg of dry air, from °C and the humidity ratio. */
    GetMoistAirEnthalpy(celsius: number, humidityRatio: number): number;
    /** m3 to the kg of dry air. */
    GetMoistAirVolume(celsius: number, humidityRatio: number, pascals: number): number;
  };
  export default psychrolib;
}
